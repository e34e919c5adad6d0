import type { FastifyReply } from 'fastify'
import type { FirstStep } from '../accounts/services/sessions/complete-sign-in.ts'
import { sessionOf } from '../accounts/services/sessions/session-of.ts'
import type { Context } from '../context/context.ts'
import { setHalfCookie, setSessionCookie } from './session.ts'

/** Answers what a first step comes to, with the cookie that belongs to it: 200 and who is signed in, or 202 and what is still to come. */
export async function answerFirstStep(context: Context, reply: FastifyReply, step: FirstStep) {
  if (step.kind === 'signed in') {
    setSessionCookie(reply, step.keys)
    return reply.send(await sessionOf(context, step.actor, step.onlyEnrols))
  }
  const { halfToken, expiresAt, name, factors } = step
  setHalfCookie(reply, halfToken)
  return reply.code(202).send({ name, ...factors, expiresAt: expiresAt.toISOString() })
}
