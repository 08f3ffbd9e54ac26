import { useId, type InputHTMLAttributes, type ReactNode } from 'react';
import styles from './Field.module.css';
import { useDraft } from './useDraft.ts';

interface LabelProps {
  readonly label: string;
  /** A line under the field that says what it is for. */
  readonly hint?: ReactNode;
  /** True in tables, where the column says what the field is; the label is then for screen readers only. */
  readonly bare?: boolean;
}

interface FrameProps extends LabelProps {
  readonly children: (ids: { readonly id: string; readonly hintId: string | undefined }) => ReactNode;
}

/** A field with its label above and its hint below. */
function FieldFrame({ label, hint, bare = false, children }: FrameProps) {
  const id = useId();
  const hintId = hint === undefined ? undefined : `${id}-hint`;
  return (
    <div className={styles['field']}>
      <label htmlFor={id} className={bare ? styles['unseen'] : styles['label']}>
        {label}
      </label>
      {children({ id, hintId })}
      {hint !== undefined && (
        <p id={hintId} className={styles['hint']}>
          {hint}
        </p>
      )}
    </div>
  );
}

type NativeInput = Omit<InputHTMLAttributes<HTMLInputElement>, 'value' | 'onChange' | 'className' | 'id'>;

interface TextFieldProps extends LabelProps, NativeInput {
  readonly value: string;
  /** Told at each letter. */
  readonly onChange: (value: string) => void;
}

/** A line of text (or a number, or a day) in a form that is sent as a whole. */
export function TextField({ label, hint, bare, value, onChange, ...rest }: TextFieldProps) {
  return (
    <FieldFrame label={label} hint={hint} {...(bare === undefined ? {} : { bare })}>
      {({ id, hintId }) => (
        <input
          {...rest}
          id={id}
          aria-describedby={hintId}
          className={styles['input']}
          value={value}
          onChange={(event) => {
            onChange(event.target.value);
          }}
        />
      )}
    </FieldFrame>
  );
}

interface KeptFieldProps extends LabelProps, NativeInput {
  readonly value: string;
  /** Told once the field is left or Enter is pressed, and only where the text is another one. */
  readonly onKeep: (value: string) => void;
  readonly onKeyDown?: React.KeyboardEventHandler<HTMLInputElement>;
}

/** A line of text that is part of the review: kept when left or on Enter, given back on Escape. */
export function KeptField({ label, hint, bare, value, onKeep, onKeyDown, ...rest }: KeptFieldProps) {
  const draft = useDraft(value, onKeep);
  return (
    <FieldFrame label={label} hint={hint} {...(bare === undefined ? {} : { bare })}>
      {({ id, hintId }) => (
        <input
          {...rest}
          id={id}
          aria-describedby={hintId}
          className={styles['input']}
          value={draft.text}
          onChange={(event) => {
            draft.type(event.target.value);
          }}
          onBlur={draft.commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') draft.commit();
            if (event.key === 'Escape') draft.drop();
            onKeyDown?.(event);
          }}
        />
      )}
    </FieldFrame>
  );
}

interface AreaProps extends LabelProps {
  readonly value: string;
  readonly onKeep: (value: string) => void;
  readonly rows?: number;
  readonly maxLength?: number;
  readonly placeholder?: string;
}

/** How long a pause in typing is before the words are kept, milliseconds. */
const pauseInTyping = 1200;

/** Several lines of text that are part of the review: kept at each pause in typing. */
export function KeptArea({ label, hint, bare, value, onKeep, rows = 4, ...rest }: AreaProps) {
  const draft = useDraft(value, onKeep, pauseInTyping);
  return (
    <FieldFrame label={label} hint={hint} {...(bare === undefined ? {} : { bare })}>
      {({ id, hintId }) => (
        <textarea
          {...rest}
          id={id}
          rows={rows}
          aria-describedby={hintId}
          className={styles['input']}
          value={draft.text}
          onChange={(event) => {
            draft.type(event.target.value);
          }}
          onBlur={draft.commit}
        />
      )}
    </FieldFrame>
  );
}

interface SelectProps<T extends string> extends LabelProps {
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
  readonly onKeyDown?: React.KeyboardEventHandler<HTMLSelectElement>;
  readonly 'data-cell'?: string;
}

/** One of a few, from a list. */
export function SelectField<T extends string>(props: SelectProps<T>) {
  const { label, hint, bare, value, options, onChange, ...rest } = props;
  return (
    <FieldFrame label={label} hint={hint} {...(bare === undefined ? {} : { bare })}>
      {({ id, hintId }) => (
        <select
          {...rest}
          id={id}
          aria-describedby={hintId}
          className={styles['input']}
          value={value}
          onChange={(event) => {
            const chosen = options.find(([option]) => option === event.target.value);
            if (chosen) onChange(chosen[0]);
          }}
        >
          {options.map(([option, word]) => (
            <option key={option} value={option}>
              {word}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}

/** One of a few, all in sight. */
export function Choice<T extends string>({ label, value, options, onChange }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset className={styles['field']}>
      <legend className={styles['label']}>{label}</legend>
      <div className={styles['choices']}>
        {options.map(([option, word]) => (
          <label key={option} className={styles['choice']}>
            <input
              type="radio"
              name={name}
              value={option}
              checked={value === option}
              onChange={() => {
                onChange(option);
              }}
            />
            {word}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface TickProps {
  readonly label: string;
  readonly hint?: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

/** A yes or no. */
export function Tick({ label, hint, checked, onChange }: TickProps) {
  const id = useId();
  return (
    <div className={styles['field']}>
      <label className={styles['choice']}>
        <input
          type="checkbox"
          checked={checked}
          aria-describedby={hint === undefined ? undefined : id}
          onChange={(event) => {
            onChange(event.target.checked);
          }}
        />
        {label}
      </label>
      {hint !== undefined && (
        <p id={id} className={styles['hint']}>
          {hint}
        </p>
      )}
    </div>
  );
}
