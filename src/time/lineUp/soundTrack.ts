/** Sound of a clip, one channel. */
export interface SoundTrack {
  /** Samples a second. */
  readonly rate: number;
  readonly samples: Float32Array;
  /** Media time of the first sample, seconds. */
  readonly from: number;
}

/** Media time just after the last sample. */
export const endOf = ({ from, rate, samples }: SoundTrack): number => from + samples.length / rate;
