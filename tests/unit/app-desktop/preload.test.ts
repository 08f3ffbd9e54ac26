// Contract tests of the built preload, run with a stand-in for Electron's module. It says nothing about isolation.
import { EventEmitter } from 'node:events';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { runInNewContext } from 'node:vm';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { DesktopBridge } from '../../../src/host/contract/shell.ts';

const built = fileURLToPath(new URL('../../../.build/preload/desktop.cjs', import.meta.url));
const ipcRenderer = Object.assign(new EventEmitter(), {
  send: vi.fn(),
  invoke: vi.fn((..._args: unknown[]) => Promise.resolve('done')),
});
const exposed: Record<string, unknown> = {};
const asked: string[] = [];
let bridge: DesktopBridge;

beforeAll(async () => {
  const electron = {
    ipcRenderer,
    contextBridge: {
      exposeInMainWorld: (name: string, api: unknown) => {
        exposed[name] = api;
      },
    },
    webUtils: { getPathForFile: (file: { name: string }) => `/films/${file.name}` },
  };
  const modules: Record<string, unknown> = { electron };
  runInNewContext(await readFile(built, 'utf8'), {
    // A sandboxed preload can load Electron's own modules and nothing else.
    require: (name: string) => {
      asked.push(name);
      if (!(name in modules)) throw new Error(`A sandboxed preload cannot load ${name}.`);
      return modules[name];
    },
    module: { exports: {} },
    exports: {},
  });
  bridge = exposed['walkbackShell'] as DesktopBridge;
});

describe('the preload', () => {
  it('loads nothing but Electron, and gives the window this and nothing more', () => {
    expect(asked).toEqual(['electron']);
    expect(Object.keys(exposed)).toEqual(['walkbackShell']);
    expect(Object.keys(bridge).sort()).toEqual([
      'onHostEnded',
      'openFiles',
      'openReport',
      'pathOf',
      'saveFile',
      'saveReport',
      'wire',
    ]);
    expect(Object.keys(bridge.wire).sort()).toEqual(['listen', 'send']);
  });

  it('sends on fixed channels alone', async () => {
    bridge.wire.send({ type: 'unsubscribe', n: 1 });
    expect(ipcRenderer.send.mock.calls).toEqual([['walkback:wire', { type: 'unsubscribe', n: 1 }]]);
    await bridge.openFiles('video', true);
    await bridge.openReport('a');
    await bridge.saveReport('a', 'b.html');
    await bridge.saveFile('c', 'd.svg');
    expect(ipcRenderer.invoke.mock.calls).toEqual([
      ['walkback:openFiles', 'video', true],
      ['walkback:openReport', 'a'],
      ['walkback:saveReport', 'a', 'b.html'],
      ['walkback:saveFile', 'c', 'd.svg'],
    ]);
    expect(bridge.pathOf({ name: 'run.mp4', size: 1 })).toBe('/films/run.mp4');
  });

  it('hands on what messages say, never Electron’s events', () => {
    const heard: unknown[][] = [];
    bridge.wire.listen((...args) => heard.push(args));
    bridge.onHostEnded((...args) => heard.push(args));
    ipcRenderer.emit('walkback:wire', { sender: 'secret' }, { type: 'answer', n: 1, result: null });
    ipcRenderer.emit('walkback:hostEnded', { sender: 'secret' });
    expect(heard).toEqual([[{ type: 'answer', n: 1, result: null }], []]);
  });
});
