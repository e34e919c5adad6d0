/** Where a browser takes notifications, and the keys it gave for them (base64url). */
export interface PushTarget {
  readonly endpoint: string
  readonly p256dh: string
  readonly auth: string
}

/** What became of a message: taken; the subscription is gone; to be tried later; or refused for good. */
export type Delivery =
  | { readonly kind: 'taken' | 'gone' }
  | { readonly kind: 'later'; readonly afterMs: number }
  | { readonly kind: 'refused'; readonly why: string }

export interface PushMessage {
  /** What is sent, encrypted for the browser alone. */
  readonly content: object
  /** A later message of the same topic takes the place of one that no browser has fetched yet. */
  readonly topic: string
  /** Whom the push service writes to: `mailto:` or `https:`. */
  readonly contact: string
  readonly now: Date
}

/** Sends to the push services of browsers, signed with the unit's own key. */
export interface Push {
  /** The unit's public key, as browsers take it (base64url). */
  readonly publicKey: string
  /** What is wrong with a subscription: its address must be public and by TLS, its key a point of the curve; null: nothing. */
  problemOf(target: PushTarget): 'endpoint' | 'p256dh' | null
  /** Never throws: what goes wrong on the way is for later. */
  deliver(to: PushTarget, message: PushMessage): Promise<Delivery>
}
