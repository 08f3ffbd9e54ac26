import { copyFile, rename, rm, stat } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { dialog, ipcMain, type BrowserWindow, type IpcMainEvent, type IpcMainInvokeEvent } from 'electron';
import { z } from 'zod';
import type { DesktopFile, FilePurpose } from '../../src/host/contract/shell.ts';
import type { HostPort } from '../../src/host/port.ts';
import { mediaIdShape } from '../../src/host/serving/mediaAnswer.ts';
import { shellWords } from '../../src/words/shells.ts';
import { isWindowAddress } from './addresses.ts';
import { channels } from './channels.ts';
import { openReport } from './windows.ts';

const Purpose = z.enum(['video', 'picture', 'review', 'course', 'rules', 'dog'] satisfies FilePurpose[]);
const MediaId = z.string().regex(mediaIdShape);
const Name = z.string().min(1).max(255);

const endings: Record<FilePurpose, string[]> = {
  video: ['mp4', 'm4v', 'mov', 'mkv', 'webm', 'avi', 'mts', 'm2ts', 'ts'],
  picture: ['png', 'jpg', 'jpeg', 'webp', 'pdf'],
  review: ['json'],
  course: ['json', 'svg'],
  rules: ['json'],
  dog: ['json'],
};

/** Whether a message comes from our own window's page itself, and not from a frame in it or another page. */
export function isFromWindow(event: IpcMainEvent | IpcMainInvokeEvent, window: BrowserWindow): boolean {
  const frame = event.senderFrame;
  return (
    frame !== null &&
    event.sender === window.webContents &&
    frame === window.webContents.mainFrame &&
    isWindowAddress(frame.url)
  );
}

/** Answers what the preload asks for. Each request checks who asks, then what is asked, before anything is done. */
export function answerRequests(window: BrowserWindow, host: HostPort): void {
  const seat = host.seat((message) => {
    if (!window.isDestroyed()) window.webContents.send(channels.wire, message);
  });
  window.on('closed', () => {
    seat.leave();
  });
  ipcMain.on(channels.wire, (event, message: unknown) => {
    if (isFromWindow(event, window)) seat.receive(message);
  });

  const answer = (channel: string, work: (args: readonly unknown[]) => Promise<unknown>): void => {
    ipcMain.handle(channel, async (event, ...args: unknown[]) => {
      if (!isFromWindow(event, window)) throw new Error('Refused.');
      return await work(args);
    });
  };

  answer(channels.openFiles, (args) => {
    const [purpose, several] = z.tuple([Purpose, z.boolean()]).parse(args);
    return chooseFiles(window, purpose, several);
  });
  answer(channels.openReport, async (args) => {
    const [mediaId] = z.tuple([MediaId]).parse(args);
    await reportFile(host, mediaId);
    await openReport(window, mediaId);
  });
  answer(channels.saveReport, async (args) => {
    const [mediaId, name] = z.tuple([MediaId, Name]).parse(args);
    return saveCopy(window, await reportFile(host, mediaId), name, shellWords.filesFor.report);
  });
  answer(channels.saveFile, async (args) => {
    const [mediaId, name] = z.tuple([MediaId, Name]).parse(args);
    const file = await host.media(mediaId);
    if (!file) throw new Error(shellWords.fileNotFound);
    return saveCopy(window, file.path, name, shellWords.filesFor.written);
  });
}

async function chooseFiles(
  window: BrowserWindow,
  purpose: FilePurpose,
  several: boolean,
): Promise<readonly DesktopFile[]> {
  const chosen = await dialog.showOpenDialog(window, {
    properties: several ? ['openFile', 'multiSelections'] : ['openFile'],
    filters: [
      { name: shellWords.filesFor[purpose], extensions: endings[purpose] },
      { name: shellWords.filesFor.all, extensions: ['*'] },
    ],
  });
  if (chosen.canceled) return [];
  return Promise.all(
    chosen.filePaths.map(async (path) => ({
      path,
      name: basename(path),
      bytes: (await stat(path).catch(() => null))?.size ?? null,
    })),
  );
}

async function reportFile(host: HostPort, mediaId: string): Promise<string> {
  const file = await host.media(mediaId);
  if (!file || !file.mime.startsWith('text/html')) throw new Error(shellWords.reportNotFound);
  return file.path;
}

/** Copies a written file to where the user says, under a name beside it first, so that no half file takes a place. */
async function saveCopy(window: BrowserWindow, from: string, name: string, kind: string): Promise<boolean> {
  const chosen = await dialog.showSaveDialog(window, {
    defaultPath: basename(name),
    filters: [{ name: kind, extensions: [extname(from).slice(1)] }],
  });
  if (chosen.canceled || chosen.filePath === '') return false;
  const part = `${chosen.filePath}.part`;
  try {
    await copyFile(from, part);
    await rename(part, chosen.filePath);
  } catch (error) {
    await rm(part, { force: true });
    throw new Error(shellWords.reportNotSaved(basename(chosen.filePath)), { cause: error });
  }
  return true;
}
