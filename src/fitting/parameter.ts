/** A fitted parameter: its value, and how sure it is. */
export interface Parameter {
  /** A key of the sensor where `key` is true; otherwise a name of this report only. */
  readonly name: string;
  readonly key: boolean;
  readonly unit: string;
  /** What a profile gets; never outside the interval's meaning, so noise and shares are at least 0. */
  readonly value: number;
  /** Null where the data can't tell. */
  readonly standard_error: number | null;
  /** The standard error if all parameters that it is tangled up with were known: what rounding must stay below. */
  readonly alone: number | null;
  /** 95 % interval. */
  readonly low: number;
  readonly high: number;
  /** What has to be said about it, in a sentence; empty when nothing has. */
  readonly note: string;
}
