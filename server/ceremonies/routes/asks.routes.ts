import { AnswerBody, AskBody, AskCandidates, AskList, CeremonyAsks } from '../../contract/ceremonies/asks.ts'
import * as endpoints from '../../contract/ceremonies/endpoints.ts'
import { Created, IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { answerFor, findAskCandidates, findOpenAsks } from '../services/asks/answer-ask.ts'
import { askUnit, findAsks, takeAskBack } from '../services/asks/ask-unit.ts'

const tags = ['events']

/** Other units are asked for a soldier for a post, and answer. */
export const askRoutes: Routes = (app, context) => {
  addAsking(app, context)
  addAnswering(app, context)
}

const addAsking: Routes = (app, context) => {
  route(app, endpoints.listAsksFor, {
    schema: {
      operationId: 'listAsksFor',
      summary: 'What other units were asked for a ceremony, and which can be asked',
      tags,
      params: IdParams,
      response: { 200: CeremonyAsks, ...failures, ...notFound },
    },
    handler: (request) => findAsks(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.askUnit, {
    schema: {
      operationId: 'askUnit',
      summary: 'Ask another unit for a soldier for a post that is short; its leader answers',
      tags,
      params: IdParams,
      body: AskBody,
      response: { 201: Created, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await askUnit(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.takeAskBack, {
    schema: {
      operationId: 'takeAskBack',
      summary: 'Take an ask back that was not answered yet',
      tags,
      params: IdParams,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => takeAskBack(context, actorOf(request), request.params.id),
  })
}

const addAnswering: Routes = (app, context) => {
  route(app, endpoints.listAsks, {
    schema: {
      operationId: 'listAsks',
      summary: 'What your unit and those below it are asked for and have not answered',
      tags,
      response: { 200: AskList, ...failures },
    },
    handler: (request) => findOpenAsks(context, actorOf(request)),
  })

  route(app, endpoints.listAskCandidates, {
    schema: {
      operationId: 'listAskCandidates',
      summary: 'Who of the unit asked can stand there, who stood least first',
      tags,
      params: IdParams,
      response: { 200: AskCandidates, ...failures, ...notFound },
    },
    handler: (request) => findAskCandidates(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.answerAsk, {
    schema: {
      operationId: 'answerAsk',
      summary: 'Answer for the unit asked: yes with a soldier, or no with a word',
      tags,
      params: IdParams,
      body: AnswerBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => answerFor(context, actorOf(request), request.params.id, request.body),
  })
}
