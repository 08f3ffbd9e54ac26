import { BrowserWindow, type MenuItemConstructorOptions } from 'electron';
import { shellWords } from '../../src/words/shells.ts';

/**
 * The program's menu: what the system expects, and printing. Undo and redo are left to the window, whose acts they
 * take back; reloading and developer tools are not offered.
 */
export function menuTemplate(platform: NodeJS.Platform): MenuItemConstructorOptions[] {
  const file: MenuItemConstructorOptions = {
    label: shellWords.menuFile,
    submenu: [
      {
        label: shellWords.print,
        click: () => {
          BrowserWindow.getFocusedWindow()?.webContents.print();
        },
      },
      { role: 'close' },
    ],
  };
  const edit: MenuItemConstructorOptions = {
    label: shellWords.menuEdit,
    submenu: [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { role: 'selectAll' }],
  };
  const view: MenuItemConstructorOptions = {
    label: shellWords.menuView,
    submenu: [{ role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, { role: 'togglefullscreen' }],
  };
  return [...(platform === 'darwin' ? [{ role: 'appMenu' } as const] : []), file, edit, view];
}
