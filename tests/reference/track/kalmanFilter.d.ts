/** The part of the npm package kalman-filter 2.3 that the checks use; it ships no types. */
declare module 'kalman-filter' {
  type Rows = number[][];
  interface State {
    readonly mean: Rows;
    readonly covariance: Rows;
    readonly index: number;
  }
  export class KalmanFilter {
    constructor(options?: {
      observation: {
        stateProjection: Rows;
        covariance: (options: { index: number }) => Rows;
        dimension: number;
      };
      dynamic: {
        init: State;
        dimension: number;
        transition: (options: { index: number }) => Rows;
        covariance: (options: { index: number }) => Rows;
      };
    });
    filterAll(observations: readonly (number | number[])[]): Rows;
    predict(options: { previousCorrected?: State | undefined; index?: number }): State;
    correct(options: { predicted: State; observation: number[] }): State;
  }
}
