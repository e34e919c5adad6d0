import type { IncomingHttpHeaders } from 'node:http'
import https from 'node:https'
import type { Delivery, Push, PushMessage, PushTarget } from '../context/push.ts'
import { encryptPush, isPublicKey } from './encrypt-push.ts'
import { isPublicEndpoint, lookUpPublic } from './public-host.ts'
import { type PushKeys, vapidAuthorization } from './push-keys.ts'

/** For tests alone: a push service of this machine's own, and whose certificate it has. */
export interface OnLoopback {
  readonly ca: string | Buffer
}

/** Until a push service has answered. */
const ANSWER_MS = 10_000
/** A message that no browser fetches is thrown away after a day. */
const TTL_SECONDS = 86_400
const LONGEST_WAIT_MS = 6 * 60 * 60 * 1000

/** Sends by Web Push (RFC 8030), as the unit whose keys these are. */
export function openPush(keys: PushKeys, loopback?: OnLoopback): Push {
  return {
    publicKey: keys.publicKey,
    problemOf({ endpoint, p256dh }) {
      if (!isPublicEndpoint(endpoint, loopback !== undefined)) return 'endpoint'
      return isPublicKey(Buffer.from(p256dh, 'base64url')) ? null : 'p256dh'
    },
    deliver: (to, message) =>
      send(keys, to, message, loopback).catch(
        (error: NodeJS.ErrnoException): Delivery =>
          error.code === 'ENOTPUBLIC' ? { kind: 'gone' } : { kind: 'later', afterMs: 0 },
      ),
  }
}

async function send(keys: PushKeys, to: PushTarget, message: PushMessage, loopback?: OnLoopback): Promise<Delivery> {
  if (!isPublicEndpoint(to.endpoint, loopback !== undefined)) return { kind: 'gone' }
  const receiver = { publicKey: Buffer.from(to.p256dh, 'base64url'), secret: Buffer.from(to.auth, 'base64url') }
  const body = encryptPush(Buffer.from(JSON.stringify(message.content)), receiver)
  const headers = {
    authorization: vapidAuthorization(keys, to.endpoint, message.contact, message.now),
    'content-encoding': 'aes128gcm',
    'content-type': 'application/octet-stream',
    'content-length': body.length,
    ttl: TTL_SECONDS,
    topic: message.topic,
    urgency: 'normal',
  }
  return new Promise((resolve, reject) => {
    const request = https.request(to.endpoint, {
      method: 'POST',
      headers,
      agent: false,
      lookup: lookUpPublic(loopback !== undefined),
      signal: AbortSignal.timeout(ANSWER_MS),
      ...(loopback && { ca: loopback.ca }),
    })
    request.on('error', reject)
    request.on('response', (response) => {
      resolve(outcome(response.statusCode ?? 0, response.headers, message.now))
      // What it says is of no use, and a redirection is not followed.
      response.destroy()
    })
    request.end(body)
  })
}

const GONE = new Set([404, 410])
const LATER = new Set([408, 425, 429])

function outcome(status: number, headers: IncomingHttpHeaders, now: Date): Delivery {
  if (status >= 200 && status < 300) return { kind: 'taken' }
  if (GONE.has(status)) return { kind: 'gone' }
  if (status >= 500 || LATER.has(status)) return { kind: 'later', afterMs: afterMs(headers['retry-after'], now) }
  return { kind: 'refused', why: `status ${status}` }
}

/** What `Retry-After` says, in milliseconds: seconds or a date; 0 where it says nothing. */
function afterMs(text: string | undefined, now: Date): number {
  if (text === undefined) return 0
  const wait = /^\d+$/.test(text) ? Number(text) * 1000 : Date.parse(text) - now.getTime()
  return Number.isNaN(wait) ? 0 : Math.min(Math.max(wait, 0), LONGEST_WAIT_MS)
}
