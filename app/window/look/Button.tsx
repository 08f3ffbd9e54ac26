import type { ButtonHTMLAttributes, ReactNode } from 'react';
import { Key } from '../keys/Key.tsx';
import type { ActName } from '../keys/allActs.ts';
import styles from './Button.module.css';

interface ButtonProps extends Omit<ButtonHTMLAttributes<HTMLButtonElement>, 'className'> {
  /** `main`: the one next step of a place. `quiet`: a small act beside a thing. */
  readonly kind?: 'main' | 'plain' | 'quiet';
  readonly icon?: ReactNode;
  /** The act this button does; its key is shown. */
  readonly act?: ActName;
  /** For a button that stays pressed. */
  readonly pressed?: boolean;
  readonly children: ReactNode;
}

/** A button with its word, and its icon and key where it has them. */
export function Button({
  kind = 'plain',
  icon,
  act,
  pressed,
  children,
  type = 'button',
  ...rest
}: ButtonProps) {
  return (
    <button {...rest} type={type} className={`${styles['button']} ${styles[kind]}`} aria-pressed={pressed}>
      {icon}
      <span>{children}</span>
      {act && <Key act={act} />}
    </button>
  );
}
