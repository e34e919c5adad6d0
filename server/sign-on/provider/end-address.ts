import { buildEndSessionUrl, type Configuration } from 'openid-client'

/** Where a provider ends its own session and sends the browser back (RP-Initiated Logout 1.0); null where it does no such thing. */
export function endAddress(
  configuration: Configuration,
  { idToken, returnAddress }: { idToken: string; returnAddress: string },
): string | null {
  if (configuration.serverMetadata().end_session_endpoint === undefined) return null
  return buildEndSessionUrl(configuration, { id_token_hint: idToken, post_logout_redirect_uri: returnAddress }).href
}
