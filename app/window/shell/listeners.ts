/** A set of listeners to one kind of news. */
export function listeners<T>(): { add(on: (news: T) => void): () => void; tell(news: T): void } {
  const all = new Set<(news: T) => void>();
  return {
    add(on) {
      all.add(on);
      return () => {
        all.delete(on);
      };
    },
    tell(news) {
      for (const on of [...all]) on(news);
    },
  };
}
