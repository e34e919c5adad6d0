import { createDecipheriv, createECDH, hkdfSync, randomBytes } from 'node:crypto'
import fs from 'node:fs'
import https from 'node:https'
import type { AddressInfo } from 'node:net'
import path from 'node:path'

const file = (name: string) => fs.readFileSync(path.join(import.meta.dirname, 'tls', name))
export const PUSH_CA = file('localhost.cert.pem')

/** A message as it came in. */
export interface Arrived {
  readonly path: string
  readonly headers: NodeJS.Dict<string | string[]>
  readonly body: Buffer
}

export interface PushService {
  readonly origin: string
  readonly arrived: Arrived[]
  /** What it answers, by the path asked; 201 where it says nothing. */
  readonly answers: Map<string, { status: number; headers?: Record<string, string> }>
  close(): Promise<void>
}

/** A push service on this machine, by TLS, that keeps what it is sent. */
export async function openPushService(): Promise<PushService> {
  const arrived: Arrived[] = []
  const answers: PushService['answers'] = new Map()
  const server = https.createServer({ cert: PUSH_CA, key: file('localhost.key.pem') }, async (request, response) => {
    const parts: Buffer[] = []
    for await (const part of request) parts.push(part as Buffer)
    const at = request.url ?? ''
    arrived.push({ path: at, headers: request.headers, body: Buffer.concat(parts) })
    const { status, headers = {} } = answers.get(at) ?? { status: 201 }
    response.writeHead(status, headers).end()
  })
  await new Promise<void>((resolve) => {
    server.listen(0, 'localhost', resolve)
  })
  const { port } = server.address() as AddressInfo
  return {
    origin: `https://localhost:${port}`,
    arrived,
    answers,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections()
        server.close(() => resolve())
      }),
  }
}

/** A browser as a push service and a sender know it: what it gives out, and how it reads what comes (RFC 8291). */
export function makeReceiver() {
  const pair = createECDH('prime256v1')
  const publicKey = pair.generateKeys()
  const secret = randomBytes(16)
  const derive = (key: Uint8Array, salt: Uint8Array, info: Buffer, bytes: number) =>
    Buffer.from(hkdfSync('sha256', key, salt, info, bytes))
  return {
    keys: { p256dh: publicKey.toString('base64url'), auth: secret.toString('base64url') },
    read(body: Buffer): unknown {
      const [salt, sender] = [body.subarray(0, 16), body.subarray(21, 21 + body.readUInt8(20))]
      const info = Buffer.concat([Buffer.from('WebPush: info\0'), publicKey, sender])
      const keying = derive(pair.computeSecret(sender), secret, info, 32)
      const key = derive(keying, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16)
      const nonce = derive(keying, salt, Buffer.from('Content-Encoding: nonce\0'), 12)
      const sealed = body.subarray(21 + sender.length)
      const decipher = createDecipheriv('aes-128-gcm', key, nonce)
      decipher.setAuthTag(sealed.subarray(-16))
      const plain = Buffer.concat([decipher.update(sealed.subarray(0, -16)), decipher.final()])
      if (plain.at(-1) !== 2) throw new Error('The last record does not end as one.')
      return JSON.parse(plain.subarray(0, -1).toString('utf8'))
    },
  }
}
