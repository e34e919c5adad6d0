import { once } from 'node:events'
import net from 'node:net'
import pg from 'pg'

export interface Pooler {
  readonly url: string
  close(): Promise<void>
}

interface Ways {
  /** Whether all share one connection, each for a question at a time; else each has one of its own. */
  readonly lends: boolean
  /** Whether it refuses limits of time at the start of a connection. */
  readonly refusesLimits: boolean
}

/** Answers questions without parameters, of text and numbers alone, as a pooler in front of a PostgreSQL does (PostgreSQL 17, 53.7). */
export async function openPooler(behind: string, { lends, refusesLimits }: Ways): Promise<Pooler> {
  const clients: pg.Client[] = []
  const connect = async () => {
    const client = new pg.Client({ connectionString: behind })
    clients.push(client)
    await client.connect()
    return client
  }
  const shared = lends ? await connect() : null
  const server = net.createServer(async (socket) => {
    socket.on('error', () => {})
    let client: pg.Client | null = null
    for await (const { kind, content } of messagesOf(socket)) {
      if (kind === 'startup') {
        if (refusesLimits && content.includes('statement_timeout')) {
          socket.end(message('E', Buffer.from('SFATAL\0C08P01\0Munsupported startup parameter\0\0')))
          return
        }
        client = shared ?? (await connect())
        socket.write(Buffer.concat([AUTHENTICATED, message('K', Buffer.alloc(8, 1)), READY]))
      } else if (kind === 'Q') {
        const { rows } = await client!.query(content.subarray(0, -1).toString())
        socket.write(Buffer.concat([...rows.flatMap(tableOf), message('C', Buffer.from('SELECT 1\0')), READY]))
      } else socket.end()
    }
  })
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const url = new URL(behind)
  url.port = String((server.address() as net.AddressInfo).port)
  return {
    url: url.href,
    async close() {
      server.close()
      await Promise.all(clients.map((client) => client.end()))
    },
  }
}

function message(kind: string, content: Buffer): Buffer {
  const length = Buffer.alloc(4)
  length.writeInt32BE(4 + content.length)
  return Buffer.concat([Buffer.from(kind), length, content])
}

const AUTHENTICATED = message('R', Buffer.alloc(4))
const READY = message('Z', Buffer.from('I'))
const INT4 = 23

/** A row of one number, with its heading before it. */
function tableOf(row: object): Buffer[] {
  const [[name, value]] = Object.entries(row) as [[string, unknown]]
  const one = Buffer.from([0, 1])
  const type = Buffer.alloc(18)
  type.writeInt32BE(INT4, 6)
  const text = Buffer.from(String(value))
  const length = Buffer.alloc(4)
  length.writeInt32BE(text.length)
  return [
    message('T', Buffer.concat([one, Buffer.from(`${name}\0`), type])),
    message('D', Buffer.concat([one, length, text])),
  ]
}

/** What a client says: how it begins, which has no kind, and then each message. */
async function* messagesOf(socket: net.Socket): AsyncGenerator<{ kind: string; content: Buffer }> {
  let held = Buffer.alloc(0)
  let hasBegun = false
  for await (const part of socket) {
    held = Buffer.concat([held, part as Buffer])
    for (;;) {
      const head = hasBegun ? 1 : 0
      if (held.length < head + 4) break
      const end = head + held.readInt32BE(head)
      if (held.length < end) break
      yield { kind: hasBegun ? String.fromCharCode(held[0]!) : 'startup', content: held.subarray(head + 4, end) }
      held = held.subarray(end)
      hasBegun = true
    }
  }
}
