/** Word from the database that something changed, across all server processes. */
export interface Signals {
  /**
   * Calls `heard` whenever the test day changes, and whenever the connection was made (anew), for until then word was
   * missed. Out: how to stop.
   */
  onTestDay(testDayId: string, heard: () => void): () => void
  /** Aborts when nothing is heard any more, because the server stops. */
  readonly closing: AbortSignal
  close(): Promise<void>
}

/** For work that nobody follows: hears nothing. */
export const silentSignals: Signals = {
  onTestDay: () => () => {},
  closing: new AbortController().signal,
  close: async () => {},
}
