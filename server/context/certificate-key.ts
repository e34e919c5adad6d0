/** The unit's own key pair under which certificates are signed: Ed25519 as a JWK (RFC 8037), both parts base64url. */
export interface CertificateKey {
  /** The public part. */
  readonly x: string
  /** The private part. */
  readonly d: string
}
