import styles from './NumberBoard.module.css';

interface NumberBoardProps {
  readonly place: number;
  /** What is read out. */
  readonly name: string;
  readonly selected: boolean;
  /** Where it stands, as parts of the map's width and height; in the flow of text where left out. */
  readonly x?: number;
  readonly y?: number;
  readonly onSelect?: (place: number) => void;
}

/** A number of the course as the judge puts it on the grass: a small board, large enough to touch. */
export function NumberBoard({ place, name, selected, x, y, onSelect }: NumberBoardProps) {
  const standing = x !== undefined && y !== undefined;
  const style = standing ? { left: `${x * 100}%`, top: `${y * 100}%` } : undefined;
  const className = `${styles['board']} ${standing ? styles['standing'] : ''}`;
  if (!onSelect) {
    return (
      <span className={className} style={style} data-selected={selected} title={name}>
        {place}
      </span>
    );
  }
  return (
    <button
      type="button"
      className={className}
      style={style}
      data-selected={selected}
      aria-pressed={selected}
      aria-label={name}
      title={name}
      onClick={() => {
        onSelect(place);
      }}
    >
      {place}
    </button>
  );
}
