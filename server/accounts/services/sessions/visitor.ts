/** Who knocks: what a request tells of the browser it comes from. */
export interface Visitor {
  /** IP address; behind a trusted proxy the one it names. */
  readonly address: string
  readonly userAgent: string | undefined
  /** Tokens its cookies hold. */
  readonly sessionToken: string | undefined
  readonly deviceToken: string | undefined
  readonly halfToken: string | undefined
}
