/** A mail as it is handed to a mail server. Whom it is for is an address and no name. */
export interface OutgoingMail {
  /** The left part of the Message-ID, the same however often it is tried. */
  readonly id: string
  readonly to: string
  readonly subject: string
  readonly text: string
  readonly html: string
  readonly at: Date
}

/**
 * What became of it: accepted; refused for good, which may mean that there is no such address; or to be tried later, where either
 * this mail was put off or the mail server cannot be used at all, so that any other mail would fare the same.
 */
export type MailOutcome =
  | { readonly outcome: 'accepted' }
  | { readonly outcome: 'refused'; readonly problem: string; readonly isAddress: boolean }
  | { readonly outcome: 'later'; readonly problem: string; readonly isServer: boolean }

/** The way out for mail: a mail server, and what the mails need to know. */
export interface MailPost {
  /** Host and port of the mail server, for administrators. */
  readonly server: string
  readonly sender: string
  /** Address of this server that links begin with, as `https://review.example.org`. */
  readonly origin: string
  /** Hour of the morning, by the clock of the unit, at which daily and Monday's mail goes out. */
  readonly hour: number
  /** Never throws. */
  send(mail: OutgoingMail): Promise<MailOutcome>
}
