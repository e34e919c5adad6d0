/** What a page was drawn from when an account last had it open with a network. */
export interface KeptPage {
  readonly accountId: string
  /** Which page: `sponsor`, or `candidate` with the candidate's id. */
  readonly page: string
  /** Answers of the server by the keys that the page asks for them under. */
  readonly answers: readonly { readonly key: readonly unknown[]; readonly data: unknown }[]
  /** When the oldest of them came down, by the device's clock. */
  readonly fetchedAt: string
}

/** What a page about a candidate is kept as. */
export const candidatePage = (candidateId: string): string => `candidate ${candidateId}`
