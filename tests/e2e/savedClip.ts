import { join } from 'node:path';
import type { Locator, Page } from 'playwright';

/**
 * Asks for the clip that the dialog stands at, waits until the queue has it whole, and saves a copy of it.
 * @returns where the copy lies
 */
export async function savedClip(page: Page, dialog: Locator, folder: string): Promise<string> {
  await page.keyboard.press('Enter');
  const queue = dialog.getByRole('region', { name: 'Clips' });
  const save = queue.getByRole('button', { name: 'Save a copy' });
  await save.waitFor({ timeout: 60_000 });
  const download = page.waitForEvent('download');
  await save.click();
  const file = join(folder, 'saved.mp4');
  await (await download).saveAs(file);
  return file;
}
