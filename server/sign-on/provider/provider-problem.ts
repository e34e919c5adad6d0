import {
  AuthorizationResponseError,
  ClientError,
  ResponseBodyError,
  WWWAuthenticateChallengeError,
} from 'openid-client'
import type { SignOnProblem } from '../../contract/sign-on/problems.ts'

/** The provider could not be asked: no network, no such name, no trusted certificate, too slow, or more than we read. */
export class ProviderSilent extends TypeError {}

const NOT_ANSWERED = ['OAUTH_TIMEOUT', 'OAUTH_ABORT', 'OAUTH_RESPONSE_IS_NOT_CONFORM', 'OAUTH_RESPONSE_IS_NOT_JSON']

/** What went wrong between the provider and us, by its name; null for what is no doing of the provider's. */
export function problemWithProvider(error: unknown): SignOnProblem | null {
  if (error instanceof ProviderSilent) return 'provider-silent'
  if (error instanceof AuthorizationResponseError) return 'provider-refused'
  if (error instanceof WWWAuthenticateChallengeError) return 'client-refused'
  if (error instanceof ResponseBodyError) {
    if (error.status >= 500) return 'provider-silent'
    return error.error === 'invalid_client' || error.error === 'unauthorized_client' ? 'client-refused' : 'begin-again'
  }
  if (error instanceof ClientError) {
    if (error.code === 'OAUTH_JWT_TIMESTAMP_CHECK_FAILED') return 'clock-off'
    return NOT_ANSWERED.includes(error.code ?? '') ? 'provider-silent' : 'provider-wrong'
  }
  return error instanceof TypeError ? 'provider-wrong' : null
}
