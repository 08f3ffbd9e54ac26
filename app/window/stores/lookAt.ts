/** A mark that another screen asked to be shown: the review screen goes to it as soon as it can. */
export interface LookAt {
  ask(markId: string): void;
  /** The mark asked for, if the review screen can go to it now; it is then asked for no longer. */
  take(can: (markId: string) => boolean): string | null;
}

export function createLookAt(): LookAt {
  let asked: string | null = null;
  return {
    ask(markId) {
      asked = markId;
    },
    take(can) {
      if (asked === null || !can(asked)) return null;
      const taken = asked;
      asked = null;
      return taken;
    },
  };
}
