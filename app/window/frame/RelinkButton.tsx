import { Link2 } from 'lucide-react';
import { useState } from 'react';
import type { FileSource } from '../../../src/host/contract/calls.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { libraryWords as words } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { useWorkbench } from '../stores/react.ts';
import { HostFilesDialog } from './HostFilesDialog.tsx';

/** Gives a missing clip its file back; the host refuses any file with other content. */
export function RelinkButton({ clip }: { readonly clip: ClipSummary }) {
  const { host, shell, notices } = useWorkbench();
  const [choosing, setChoosing] = useState(false);

  const relink = async (source: Promise<FileSource>): Promise<void> => {
    try {
      await host.call('clip.relink', { clipId: clip.id, source: await source });
      notices.getState().say(words.clips.found(clip.name));
    } catch (error) {
      notices.getState().trouble(error, (why) => words.clips.notFound(clip.name, why));
    }
  };
  const ask = (): void => {
    shell.chooseFiles('video', false).then(
      ([file]) => {
        if (file) void relink(file.source());
      },
      (error: unknown) => {
        notices.getState().trouble(error);
      },
    );
  };

  return (
    <>
      <Button
        icon={<Link2 aria-hidden />}
        aria-label={words.clips.findNamed(clip.name)}
        onClick={() => {
          if (shell.kind === 'loopback') setChoosing(true);
          else ask();
        }}
      >
        {words.clips.find}
      </Button>
      <HostFilesDialog
        open={choosing}
        several={false}
        title={words.files.relinkTitle(clip.name)}
        onChoose={([path]) => {
          if (path !== undefined) void relink(Promise.resolve({ path }));
        }}
        onElsewhere={ask}
        onClose={() => {
          setChoosing(false);
        }}
      />
    </>
  );
}
