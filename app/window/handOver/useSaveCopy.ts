import { useCallback } from 'react';
import type { ReportFile } from '../../../src/host/contract/shapes.ts';
import { useWorkbench } from '../stores/react.ts';

/** A file that the host wrote. */
type Written = Pick<ReportFile, 'mediaId' | 'name'>;

/**
 * Saves a copy of a written file where the user says, and then says so; nothing is said where the user closed the
 * dialog. A file that could not be written is told of too. Never rejects.
 */
export function useSaveCopy(): (file: Written | Promise<Written | null>, saved: string) => Promise<void> {
  const { notices, shell } = useWorkbench();
  return useCallback(
    async (file, saved) => {
      try {
        const written = await file;
        if (written && (await shell.saveFile(written.mediaId, written.name))) notices.getState().say(saved);
      } catch (error) {
        notices.getState().trouble(error);
      }
    },
    [notices, shell],
  );
}
