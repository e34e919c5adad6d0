import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/accounts/endpoints.ts'
import type {
  ConfirmationBody,
  FactorBody,
  PasskeyBody,
  PasskeyProof,
  PasskeyRequest,
} from '#contract/accounts/factors.ts'
import { call } from '../client.ts'
import { askIdentity } from '../identity.ts'

/** One's second factors, and whether one needs any. */
export const ownFactorsQuery = queryOptions({
  queryKey: ['account', 'factors'],
  queryFn: () => call(endpoints.listOwnFactors),
})

/** The second step of a sign-in. */
export const finishSignIn = (body: FactorBody) => call(endpoints.finishSignIn, { body })

/** With what one can show who one is. */
export const findConfirmation = () => call(endpoints.howToConfirm)

export const confirmIdentity = (body: ConfirmationBody) => call(endpoints.confirmIdentity, { body })

/** Before a file is fetched by a link, which cannot ask by itself. Out: whether it is known who sits here. */
export const isIdentityKnown = async (): Promise<boolean> =>
  (await findConfirmation()).confirmedUntil !== null || askIdentity()

/** The key of a new authenticator app; the answer has it, once. */
export const beginApp = () => call(endpoints.beginApp)

export const confirmNewApp = (code: string) => call(endpoints.confirmNewApp, { body: { code } })

export const removeApp = () => call(endpoints.removeApp)

export const makeRecoveryCodes = () => call(endpoints.makeRecoveryCodes)

export const removePasskey = (id: string) => call(endpoints.removePasskey, { params: { id } })

export const knowOfReset = () => call(endpoints.knowOfReset)

/** Whether a passkey could be used here at all: by a browser that knows them, on a page reached by name and safely. */
export const passkeysPossible = (): boolean =>
  'PublicKeyCredential' in window && window.isSecureContext && !/^[\d.]+$|^\[/.test(location.hostname)

/** What a passkey signs, of what it is asked to. */
async function signed(ask: () => Promise<PasskeyRequest>): Promise<PasskeyProof> {
  const { startAuthentication } = await import('@simplewebauthn/browser')
  const optionsJSON = await ask()
  const { id, response } = await inWords(startAuthentication({ optionsJSON: optionsJSON as never }))
  const { clientDataJSON, authenticatorData, signature } = response
  return { id, clientDataJSON, authenticatorData, signature }
}

/** A browser gives its reasons in words of its own; what matters is that nothing was signed. */
async function inWords<Answer>(answer: Promise<Answer>): Promise<Answer> {
  try {
    return await answer
  } catch (cause) {
    throw new Error(
      'The passkey was not used: it was cancelled, took too long, or is not on this device. Try it again.',
      {
        cause,
      },
    )
  }
}

/** Gives the second step by a passkey. */
export const finishByPasskey = async () => finishSignIn({ passkey: await signed(() => call(endpoints.askForPasskey)) })

/** Signs in by a passkey alone. */
export const signInByPasskey = async () =>
  call(endpoints.signInByPasskey, { body: { passkey: await signed(() => call(endpoints.askForPasskeyAlone)) } })

/** Shows by a passkey who one is. */
export const confirmByPasskey = async () =>
  confirmIdentity({ passkey: await signed(() => call(endpoints.askToConfirmByPasskey)) })

/** Makes a passkey on this device, or wherever its owner wants it, and adds it under a name. */
export async function addPasskey(name: string) {
  const { startRegistration } = await import('@simplewebauthn/browser')
  const optionsJSON = await call(endpoints.beginPasskey)
  const { id, response } = await inWords(startRegistration({ optionsJSON: optionsJSON as never }))
  const { clientDataJSON, attestationObject, transports = [] } = response
  const body = { name, id, clientDataJSON, attestationObject, transports: transports as PasskeyBody['transports'] }
  return call(endpoints.addPasskey, { body })
}
