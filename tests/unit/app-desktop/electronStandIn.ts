/**
 * Stands in for the `electron` module, so that the real main and preload can be held to their contract: which
 * handlers are set, what they check, what is denied, how quitting goes. It says nothing about Electron itself: not
 * about its sandbox, isolation, permissions, streaming or cloning.
 */
import { fork } from 'node:child_process';
import { EventEmitter } from 'node:events';

export interface StandInFrame {
  url: string;
}

/** What Electron's main process is told with each message. */
export interface StandInEvent {
  readonly sender: StandInContents;
  readonly senderFrame: StandInFrame | null;
}

export class StandInContents extends EventEmitter {
  readonly mainFrame: StandInFrame = { url: '' };
  readonly sent: { channel: string; args: unknown[] }[] = [];
  openHandler: (details: { url: string }) => { action: string } = () => ({ action: 'allow' });
  getURL(): string {
    return this.mainFrame.url;
  }
  send(channel: string, ...args: unknown[]): void {
    // Messages are cloned on their way, as Electron does.
    const copy = structuredClone(args);
    this.sent.push({ channel, args: copy });
    this.emit('stand-in:sent', channel, copy);
  }
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }
  print(): void {
    this.emit('stand-in:printed');
  }
}

export class BrowserWindow extends EventEmitter {
  static readonly all: BrowserWindow[] = [];
  static getFocusedWindow(): BrowserWindow | null {
    return BrowserWindow.all.at(-1) ?? null;
  }
  readonly webContents = new StandInContents();
  readonly options: Record<string, unknown>;
  destroyed = false;
  shown = false;

  constructor(options: Record<string, unknown>) {
    super();
    this.options = options;
    BrowserWindow.all.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(url: string): Promise<void> {
    this.webContents.mainFrame.url = url;
    await Promise.resolve();
    this.emit('ready-to-show');
  }
  show(): void {
    this.shown = true;
  }
  isDestroyed(): boolean {
    return this.destroyed;
  }
  close(): void {
    this.destroyed = true;
    this.emit('closed');
    if (BrowserWindow.all.every((w) => w.destroyed)) app.emit('window-all-closed');
  }
}

class StandInApp extends EventEmitter {
  readonly isPackaged = false;
  sandboxed = false;
  readonly exited: Promise<number>;
  #exit: (code: number) => void = () => undefined;
  constructor() {
    super();
    this.exited = new Promise((resolve) => (this.#exit = resolve));
  }
  enableSandbox(): void {
    this.sandboxed = true;
  }
  whenReady(): Promise<void> {
    return Promise.resolve();
  }
  quit(): void {
    let held = false;
    this.emit('will-quit', { preventDefault: () => (held = true) });
    if (!held) this.#exit(0);
  }
  exit(code: number): void {
    this.#exit(code);
  }
}
export const app = new StandInApp();

type Handler = (event: StandInEvent, ...args: unknown[]) => Promise<unknown>;

class StandInIpcMain extends EventEmitter {
  readonly handlers = new Map<string, Handler>();
  handle(channel: string, handler: Handler): void {
    if (this.handlers.has(channel)) throw new Error(`A second handler for ${channel}.`);
    this.handlers.set(channel, handler);
  }
}
export const ipcMain = new StandInIpcMain();

/** What the user would choose; tests set it. */
export const answers = {
  open: { canceled: true, filePaths: [] as string[] },
  save: { canceled: true, filePath: '' },
  errors: [] as string[],
  asked: [] as unknown[],
};
export const dialog = {
  showOpenDialog: (_window: unknown, options: unknown) => {
    answers.asked.push(options);
    return Promise.resolve(answers.open);
  },
  showSaveDialog: (_window: unknown, options: unknown) => {
    answers.asked.push(options);
    return Promise.resolve(answers.save);
  },
  showErrorBox: (_title: string, message: string) => answers.errors.push(message),
};

export const Menu = {
  template: [] as unknown[],
  buildFromTemplate(template: unknown[]) {
    Menu.template = template;
    return template;
  },
  setApplicationMenu: () => undefined,
};

interface StandInScheme {
  scheme: string;
  privileges: Record<string, boolean>;
}
export const protocol = {
  schemes: [] as StandInScheme[],
  handlers: new Map<string, (request: Request) => Promise<Response>>(),
  registerSchemesAsPrivileged(schemes: StandInScheme[]): void {
    protocol.schemes.push(...schemes);
  },
  handle(scheme: string, handler: (request: Request) => Promise<Response>): void {
    protocol.handlers.set(scheme, handler);
  },
};

type Answer = (granted: boolean) => void;
class StandInSession extends EventEmitter {
  permissionRequest: ((contents: unknown, permission: string, answer: Answer) => void) | null = null;
  permissionCheck: ((contents: unknown, permission: string) => boolean) | null = null;
  devicePermission: ((details: unknown) => boolean) | null = null;
  beforeRequest: ((details: { url: string }, answer: (said: { cancel?: boolean }) => void) => void) | null =
    null;
  readonly webRequest = {
    onBeforeRequest: (handler: NonNullable<StandInSession['beforeRequest']>) =>
      (this.beforeRequest = handler),
  };
  setPermissionRequestHandler(handler: NonNullable<StandInSession['permissionRequest']>): void {
    this.permissionRequest = handler;
  }
  setPermissionCheckHandler(handler: NonNullable<StandInSession['permissionCheck']>): void {
    this.permissionCheck = handler;
  }
  setDevicePermissionHandler(handler: NonNullable<StandInSession['devicePermission']>): void {
    this.devicePermission = handler;
  }
}
export const session = { defaultSession: new StandInSession() };

/** The processes that were started, so that tests can end one. */
export const utilityChildren: ReturnType<typeof fork>[] = [];
export const utilityProcess = {
  fork(path: string, args: string[]) {
    const child = fork(path, args, { serialization: 'advanced', execArgv: [] });
    utilityChildren.push(child);
    const emitter = new EventEmitter();
    child.on('message', (message) => emitter.emit('message', message));
    child.on('exit', (code) => emitter.emit('exit', code));
    return Object.assign(emitter, {
      postMessage: (message: unknown) => void (child.connected && child.send(message as object)),
      kill: () => child.kill(),
    });
  },
};
