import type { FilePurpose, PickedFile } from '../../../src/host/contract/shell.ts';
import { useWorkbench } from '../stores/react.ts';

/** Ways to bring files in, for any screen. */
export interface BringIn {
  /** Asks for files in the system's own dialog and takes them in. */
  choose(purpose: Exclude<FilePurpose, 'picture'>): void;
  /** Takes in files that lie on the host's machine, where they are. */
  takePaths(paths: readonly string[]): void;
}

/** A file on the host's machine as if it had been picked; its bytes stay where they are. */
export function fileAt(path: string): PickedFile {
  return {
    name: path.split(/[\\/]/).at(-1) ?? path,
    bytes: null,
    source: () => Promise.resolve({ path }),
  };
}

export function useBringIn(): BringIn {
  const { shell, intake, notices } = useWorkbench();
  return {
    choose(purpose) {
      shell.chooseFiles(purpose, true).then(
        (files) => {
          if (files.length > 0) intake.take(files);
        },
        (error: unknown) => {
          notices.getState().trouble(error);
        },
      );
    },
    takePaths(paths) {
      intake.take(paths.map(fileAt));
    },
  };
}
