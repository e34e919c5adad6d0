import { z } from 'zod'
import { CoachingNoteBody, CoachingNotePage } from '../../contract/coaching/coaching-notes.ts'
import { Created, Page, Uuid } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addNote, changeNote, findNotes, removeNote, restoreNote } from '../services/coaching-notes.ts'

const Id = z.strictObject({ id: Uuid })
const response = { 200: Created, ...failures, ...notFound, ...conflict }

export const coachingNoteRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/coaching-notes',
    schema: {
      operationId: 'listCoachingNotes',
      summary: 'What was drilled with a candidate, the latest day first',
      tags: ['coaching'],
      params: Id,
      querystring: z.strictObject(Page),
      response: { 200: CoachingNotePage, ...failures, ...notFound },
    },
    handler: (request) => findNotes(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/coaching-notes',
    schema: {
      operationId: 'addCoachingNote',
      summary: 'Write down what was drilled with a candidate',
      tags: ['coaching'],
      params: Id,
      body: CoachingNoteBody,
      response: { 201: Created, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addNote(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'PUT',
    url: '/api/coaching-notes/:id',
    schema: {
      operationId: 'changeCoachingNote',
      summary: 'Change a note of one’s own, for two weeks',
      tags: ['coaching'],
      params: Id,
      body: CoachingNoteBody,
      response,
    },
    handler: (request) => changeNote(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/coaching-notes/:id/remove',
    schema: {
      operationId: 'removeCoachingNote',
      summary: 'Remove a note; for a day it can be brought back',
      tags: ['coaching'],
      params: Id,
      response,
    },
    handler: (request) => removeNote(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/coaching-notes/:id/restore',
    schema: {
      operationId: 'restoreCoachingNote',
      summary: 'Bring a removed note back',
      tags: ['coaching'],
      params: Id,
      response,
    },
    handler: (request) => restoreNote(context, actorOf(request), request.params.id),
  })
}
