import { describe, expect, it } from 'vitest';
import { stagePlayer, type PlayedStage } from '../../../app/window/review/desk/stagePlayer.ts';

/** A stage that stops when it is let, on a frame further on than the one told of. */
function stand() {
  let mode: 'playing' | 'still' = 'playing';
  let stop: () => void = () => undefined;
  let frame = 100;
  const seeks: number[] = [];
  const journeys: [number, number][] = [];
  const stage: PlayedStage = {
    get mode() {
      return mode;
    },
    rate: 1,
    muted: false,
    play: () => Promise.resolve(),
    pause: () =>
      new Promise<void>((resolve) => {
        stop = () => {
          mode = 'still';
          frame = 102;
          resolve();
        };
      }),
    seek(index) {
      seeks.push(index);
      return Promise.resolve();
    },
    travel(by, until) {
      journeys.push([by, until]);
      return Promise.resolve();
    },
    halt: () => Promise.resolve(),
    frame: () => frame,
    setLoop: () => undefined,
    onFrame: () => () => undefined,
    onMode: () => () => undefined,
  };
  const stepped: number[] = [];
  const player = stagePlayer(stage, {
    frame: () => undefined,
    playing: () => undefined,
    // As the desk does: it goes there.
    stepped(index) {
      stepped.push(index);
      void player.show(index);
    },
    trouble: () => undefined,
  });
  const settle = async (): Promise<void> => {
    stop();
    for (let i = 0; i < 5; i++) await Promise.resolve();
  };
  return { player, stepped, seeks, journeys, settle };
}

describe('a step while the run plays', () => {
  it('starts from the frame it stops on, however many presses come meanwhile', async () => {
    const s = stand();
    const first = s.player.stepOff(1);
    expect(first).not.toBeNull();
    expect(s.player.stepOff(1)).not.toBeNull();
    await s.settle();
    await first;
    expect(s.stepped).toEqual([104]);
    expect(s.seeks).toEqual([104]);
    expect(s.player.stepOff(1)).toBeNull();
  });

  it('gives way to a frame that is asked for meanwhile, and steps from that', async () => {
    const s = stand();
    void s.player.stepOff(1);
    const shown = s.player.show(40);
    expect(s.player.stepOff(1)).toBeNull();
    await s.settle();
    await shown;
    expect(s.stepped).toEqual([]);
    expect(s.seeks).toEqual([40]);
  });

  it('travels only once the run has stopped, and not at all where the key was let go before', async () => {
    const s = stand();
    s.player.pause();
    const going = s.player.travel(1, 900);
    await Promise.resolve();
    expect(s.journeys).toEqual([]);
    await s.settle();
    await going;
    expect(s.journeys).toEqual([[1, 900]]);

    const other = stand();
    other.player.pause();
    const called = other.player.travel(1, 900);
    other.player.halt();
    await other.settle();
    await called;
    expect(other.journeys).toEqual([]);
  });
});
