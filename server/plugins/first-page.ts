import { readFileSync } from 'node:fs'
import path from 'node:path'
import type { FastifyRequest } from 'fastify'
import { holderOfToken } from '../accounts/services/sessions/holder-of-token.ts'
import { sessionOf } from '../accounts/services/sessions/session-of.ts'
import type { Context } from '../context/context.ts'
import { DESK_ORDER } from '../contract/accounts/desk-order.ts'
import type { Session } from '../contract/accounts/session.ts'
import { isUnreachable } from '../db/database-errors.ts'
import { visitorOf } from './session.ts'

interface Chunk {
  readonly file: string
  readonly css?: readonly string[]
  readonly imports?: readonly string[]
}
type Manifest = Readonly<Record<string, Chunk>>

/**
 * The page as it is handed to a browser: with who is signed in, and on a desk with what the desk needs, so that the browser
 * need not first ask who it is, then fetch the desk, then the figures.
 * In: the folder of the built pages. Out: the page for a request.
 */
export function firstPage(built: string, context: Context): (request: FastifyRequest) => Promise<string> {
  const html = readFileSync(path.join(built, 'index.html'), 'utf8')
  const manifest = JSON.parse(readFileSync(path.join(built, '.vite/manifest.json'), 'utf8')) as Manifest
  return async (request) => {
    const session = await signedInOrNobody(context, request)
    if (session === null) return html
    const role = deskAt(request.url, session)
    const links = role === null ? [] : linksOf(manifest, role).filter((link) => !html.includes(link.address))
    return html.replace('</head>', () => `${links.map(({ tag }) => tag).join('')}${sessionTag(session)}</head>`)
  }
}

/** Without the database the page opens all the same, and asks by itself who is signed in. */
async function signedInOrNobody(context: Context, request: FastifyRequest): Promise<Session | null> {
  try {
    const holder = await holderOfToken(context, visitorOf(request).sessionToken)
    return holder && (await sessionOf(context, holder.actor, holder.onlyEnrols))
  } catch (error) {
    if (isUnreachable(error)) return null
    throw error
  }
}

/** The role whose desk an address shows; null for any other page. */
function deskAt(url: string, { roles }: Session): string | null {
  const [, asked] = /^\/(?:desk\/([a-z]+))?(?:\?|$)/.exec(url) ?? [null, null]
  if (asked === null) return null
  return asked ?? DESK_ORDER.find((role) => roles.includes(role)) ?? 'soldier'
}

/** What a desk needs beside what every page does; a soldier’s desk is their own record. */
function linksOf(manifest: Manifest, role: string): { address: string; tag: string }[] {
  const start = role === 'soldier' ? 'app/own-record.tsx' : `features/desks/${role}/desk.tsx`
  const seen = new Set<string>()
  const walk = (key: string): { address: string; tag: string }[] => {
    const chunk = manifest[key]
    if (!chunk || seen.has(key)) return []
    seen.add(key)
    const code = `/${chunk.file}`
    const styles = (chunk.css ?? []).map((file) => ({
      address: `/${file}`,
      tag: `<link rel="stylesheet" crossorigin href="/${file}">`,
    }))
    const own = { address: code, tag: `<link rel="modulepreload" crossorigin href="${code}">` }
    return [own, ...styles, ...(chunk.imports ?? []).flatMap(walk)]
  }
  return walk(start)
}

/** Data, not code: the content security policy lets none run. `<` is written so that no name can end the element. */
function sessionTag(session: Session): string {
  const text = JSON.stringify(session).replaceAll('<', '\\u003c')
  return `<script type="application/json" id="session">${text}</script>`
}
