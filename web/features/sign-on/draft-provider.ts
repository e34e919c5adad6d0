import type { Provider, ProviderBody } from '#contract/sign-on/providers.ts'

/** A provider as the form holds it. */
export interface DraftProvider extends Omit<ProviderBody, 'clientSecret'> {
  readonly id: string
  /** Where people come back to; the provider is told it. */
  readonly returnAddress: string | null
  readonly hasSecret: boolean
  /** As typed; blank: the one that is kept stays. */
  readonly typedSecret: string
  /** The provider asks for none. */
  readonly noSecret: boolean
}

export const toDraft = ({ linked: _, ...provider }: Provider): DraftProvider => ({
  ...provider,
  typedSecret: '',
  noSecret: !provider.hasSecret,
})

/** A new one, under an id of its own: the provider wants to know where people come back to before it gives a client id. */
export function newDraft(publicAddress: string | null): DraftProvider {
  const id = newId()
  return {
    id,
    returnAddress: publicAddress && `${publicAddress}/api/sign-on/return/${id}`,
    name: '',
    issuer: '',
    clientId: '',
    scopes: 'openid profile',
    enabled: true,
    makesAccounts: false,
    rulesEachTime: true,
    makesAdministrators: false,
    nameClaim: 'preferred_username',
    soldierClaim: null,
    rules: [],
    hasSecret: false,
    typedSecret: '',
    noSecret: false,
  }
}

/** What of it the server is sent. */
export function toBody(draft: DraftProvider): ProviderBody {
  const { id: _id, returnAddress: _address, hasSecret: _has, typedSecret, noSecret, ...body } = draft
  if (noSecret) return { ...body, clientSecret: null }
  return typedSecret === '' ? body : { ...body, clientSecret: typedSecret }
}

/** A random UUID (RFC 9562, version 4), also where the page did not come by TLS. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6]! & 0x0f) | 0x40
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5')
}
