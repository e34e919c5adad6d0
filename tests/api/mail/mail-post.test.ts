import { afterEach, describe, expect, it } from 'vitest'
import type { MailPost } from '../../../server/context/mail-post.ts'
import { type MailServer, ORIGIN, startMailServer } from '../../support/mail-server.ts'

const opened: MailServer[] = []
afterEach(async () => {
  for (const server of opened.splice(0)) await server.close()
})

async function serve(...setting: Parameters<typeof startMailServer>): Promise<MailServer> {
  const server = await startMailServer(...setting)
  opened.push(server)
  return server
}

const send = (post: MailPost) =>
  post.send({
    id: '0f5c2f9e-3f0c-4f1e-9d54-0a5c5d0d2a11',
    to: 'somebody@unit.example',
    subject: 'Subject',
    text: 'Text\n',
    html: '<p>Text</p>',
    at: new Date('2026-06-16T12:00:00Z'),
  })
const stuck = { outcome: 'later', isServer: true }

describe('with TLS', () => {
  it.each(['starttls', 'tls'] as const)(
    '%s is used, and the certificate has to be one that is trusted',
    async (tls) => {
      const server = await serve({ tls })
      expect(await send(server.post())).toEqual({ outcome: 'accepted' })
      expect(server.received[0]!.by).toBe('ESMTPS')
      const distrustful = await send(server.post({ ca: null }))
      expect(distrustful).toMatchObject({ ...stuck, problem: expect.stringMatching(/certificate/) })
      expect(server.received).toHaveLength(1)
    },
  )

  it('starttls never goes on without where the server has none', async () => {
    const server = await serve({ tls: 'off' })
    expect(await send(server.post({ tls: 'starttls' }))).toMatchObject(stuck)
    expect(server.received).toEqual([])
  })

  it('tls does not speak to a server that speaks without', async () => {
    const server = await serve({ tls: 'off' })
    expect(await send(server.post({ tls: 'tls' }))).toMatchObject(stuck)
  })
})

describe('a mail server', () => {
  it('that asks for a name gets it, by TLS; with a wrong password mail waits, and no password is in what is told', async () => {
    const login = { user: 'reviewstand', password: 'lantern-orchard-83' }
    const server = await serve({ tls: 'starttls', login })
    expect(await send(server.post())).toEqual({ outcome: 'accepted' })
    expect(server.received[0]!.by).toBe('ESMTPSA')
    const wrong = await send(server.post({ login: { ...login, password: 'lantern-orchard-84' } }))
    expect(wrong).toMatchObject({ ...stuck, problem: expect.stringContaining('535') })
    expect(JSON.stringify(wrong)).not.toContain('lantern')
    expect(await send(server.post({ login: null }))).toMatchObject(stuck)
  })

  it('that is down, or refuses the sender, stops all mail', async () => {
    const server = await serve()
    server.refuse.sender.push('550 5.7.1 Sender not allowed')
    expect(await send(server.post())).toMatchObject({ ...stuck, problem: '550 5.7.1 Sender not allowed' })
    server.refuse.recipient.push('421 4.3.2 Going down')
    expect(await send(server.post())).toMatchObject(stuck)
    await opened.pop()!.close()
    expect(await send(server.post())).toMatchObject({ ...stuck, problem: expect.stringContaining('ECONNREFUSED') })
  })

  it.each([
    ['recipient', '550 5.1.1 No such mailbox', { outcome: 'refused', isAddress: true }],
    ['recipient', '550 Unknown user', { outcome: 'refused', isAddress: true }],
    ['recipient', '550 5.7.1 Relaying denied', { outcome: 'refused', isAddress: false }],
    ['recipient', '552 5.2.2 Mailbox full', { outcome: 'refused', isAddress: false }],
    ['recipient', '450 4.2.0 Greylisted', { outcome: 'later', isServer: false }],
    ['content', '554 5.7.1 Looks unwanted', { outcome: 'refused', isAddress: false }],
    ['content', '550 5.1.1 No such mailbox after all', { outcome: 'refused', isAddress: true }],
    ['content', '451 4.3.0 Try again', { outcome: 'later', isServer: false }],
  ] as const)('that says to the %s: %s', async (part, text, outcome) => {
    const server = await serve()
    server.refuse[part].push(text)
    expect(await send(server.post())).toEqual({ ...outcome, problem: text })
    expect(server.received).toEqual([])
  })

  it('gets what programs need to leave a mail alone, and one part of text and one of HTML', async () => {
    const server = await serve()
    await send(server.post())
    const [{ mail, raw }] = server.received as [MailServer['received'][number]]
    expect(mail.messageId).toBe('<0f5c2f9e-3f0c-4f1e-9d54-0a5c5d0d2a11@unit.example>')
    expect(raw).toMatch(/^Content-Type: multipart\/alternative/m)
    expect(raw).toMatch(/^Date: Tue, 16 Jun 2026 12:00:00 \+0000\r$/m)
    expect(raw).toContain(`List-Unsubscribe: <${ORIGIN}/account>`)
    expect(mail.attachments).toEqual([])
  })
})
