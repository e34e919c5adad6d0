import { CoachingNoteBody, CoachingNotePage } from '../../contract/coaching/coaching-notes.ts'
import * as endpoints from '../../contract/coaching/endpoints.ts'
import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addNote, changeNote, findNotes, removeNote, restoreNote } from '../services/coaching-notes.ts'

const response = { 200: Created, ...failures, ...notFound, ...conflict }

export const coachingNoteRoutes: Routes = (app, context) => {
  route(app, endpoints.listCoachingNotes, {
    schema: {
      operationId: 'listCoachingNotes',
      summary: 'What was drilled with a candidate, the latest day first',
      tags: ['coaching'],
      params: IdParams,
      querystring: PageQuery,
      response: { 200: CoachingNotePage, ...failures, ...notFound },
    },
    handler: (request) => findNotes(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.addCoachingNote, {
    schema: {
      operationId: 'addCoachingNote',
      summary: 'Write down what was drilled with a candidate',
      tags: ['coaching'],
      params: IdParams,
      body: CoachingNoteBody,
      response: { 201: Created, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addNote(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.changeCoachingNote, {
    schema: {
      operationId: 'changeCoachingNote',
      summary: 'Change a note of one’s own, for two weeks',
      tags: ['coaching'],
      params: IdParams,
      body: CoachingNoteBody,
      response,
    },
    handler: (request) => changeNote(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.removeCoachingNote, {
    schema: {
      operationId: 'removeCoachingNote',
      summary: 'Remove a note; for a day it can be brought back',
      tags: ['coaching'],
      params: IdParams,
      response,
    },
    handler: (request) => removeNote(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.restoreCoachingNote, {
    schema: {
      operationId: 'restoreCoachingNote',
      summary: 'Bring a removed note back',
      tags: ['coaching'],
      params: IdParams,
      response,
    },
    handler: (request) => restoreNote(context, actorOf(request), request.params.id),
  })
}
