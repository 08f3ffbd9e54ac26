import { useEffect, useState } from 'react';
import { useWorkbench } from '../stores/react.ts';

/** The address of a kept picture of the judge's map, or null until it is known. */
export function usePicture(pictureId: string | undefined): string | null {
  const { host, shell, notices } = useWorkbench();
  const [found, setFound] = useState<{ readonly pictureId: string; readonly url: string } | null>(null);
  useEffect(() => {
    if (pictureId === undefined) return;
    let gone = false;
    host.call('picture.media', { pictureId }).then(
      ({ mediaId }) => {
        if (!gone) setFound({ pictureId, url: shell.mediaUrl(mediaId) });
      },
      (error: unknown) => {
        if (!gone) notices.getState().trouble(error);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, shell, notices, pictureId]);
  return found?.pictureId === pictureId ? (found?.url ?? null) : null;
}
