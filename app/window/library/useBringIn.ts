import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { useWorkbench } from '../stores/react.ts';
import { likelyPurpose, type NewReviewForm } from './intake.ts';

/** Ways to bring files in, for any screen. */
export interface BringIn {
  /** Takes in videos, reviews and dogs. */
  take(files: readonly PickedFile[], into?: NewReviewForm['into']): void;
  /** Asks for files in the system's own dialog and takes them in. */
  choose(purpose: 'video' | 'review'): void;
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
  const { shell, intake, dogs, notices } = useWorkbench();
  const take: BringIn['take'] = (files, into) => {
    const isDog = (file: PickedFile): boolean => likelyPurpose(file.name) === 'dog';
    for (const file of files.filter(isDog)) void dogs.take(file);
    const others = files.filter((file) => !isDog(file));
    if (others.length > 0) intake.take(others, into);
  };
  return {
    take,
    choose(purpose) {
      shell.chooseFiles(purpose, true).then(
        (files) => {
          take(files);
        },
        (error: unknown) => {
          notices.getState().trouble(error);
        },
      );
    },
    takePaths(paths) {
      take(paths.map(fileAt));
    },
  };
}
