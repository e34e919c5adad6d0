import type { CustomFetch } from 'openid-client'
import { mayBeAsked } from '../../domain/access/issuer-problem.ts'
import { ProviderSilent } from './provider-problem.ts'

/** Metadata, keys and tokens are some kilobytes. */
const LARGEST_ANSWER_BYTES = 1_048_576

/**
 * Asks a provider: by TLS (or, for tests, on this machine), without following it elsewhere, and reading no more than an answer
 * may have. Throws ProviderSilent where nothing fit to read came back; its cause says why.
 */
export const providerFetch =
  (allowsLoopback: boolean): CustomFetch =>
  async (url, options) => {
    if (!mayBeAsked(new URL(url), allowsLoopback)) throw new ProviderSilent(`${new URL(url).origin} is not asked`)
    try {
      const answer = await fetch(url, { ...options, redirect: 'manual' } as RequestInit)
      const { status, headers } = answer
      return new Response(await readAll(answer), { status, headers })
    } catch (cause) {
      throw cause instanceof ProviderSilent ? cause : new ProviderSilent('The provider did not answer', { cause })
    }
  }

async function readAll({ body }: Response): Promise<Buffer<ArrayBuffer> | null> {
  if (body === null) return null
  const parts: Uint8Array[] = []
  let size = 0
  for await (const part of body) {
    size += part.byteLength
    if (size > LARGEST_ANSWER_BYTES) throw new ProviderSilent('The provider answers too much')
    parts.push(part)
  }
  return Buffer.concat(parts)
}
