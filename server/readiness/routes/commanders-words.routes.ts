import { Created, IdParams } from '../../contract/common.ts'
import {
  AwardDecisionBody,
  AwardDecisionsMade,
  CommandersWords,
  ExtensionBody,
  TakeBackBody,
  WaitingAwardPage,
  WaitingAwardQuery,
} from '../../contract/readiness/commanders-words.ts'
import * as endpoints from '../../contract/readiness/endpoints.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { decideAwards } from '../services/words/decide-awards.ts'
import { extendAward } from '../services/words/extend-award.ts'
import { findWaiting, findWords } from '../services/words/find-words.ts'
import { takeBack } from '../services/words/take-back.ts'

const answers = { ...failures, ...notFound, ...conflict }

/** What commanders say about awards: approvals, refusals, extensions. */
export const commandersWordsRoutes: Routes = (app, context) => {
  addApprovals(app, context)
  addExtensions(app, context)
}

const addApprovals: Routes = (app, context) => {
  route(app, endpoints.listWaitingAwards, {
    schema: {
      operationId: 'listWaitingAwards',
      summary: 'Certifications earned by test that wait for a commander, the longest waiting first',
      tags: ['certifications'],
      querystring: WaitingAwardQuery,
      response: { 200: WaitingAwardPage, ...failures, ...notFound },
    },
    handler: (request) => findWaiting(context, actorOf(request), request.query),
  })

  route(app, endpoints.decideAwards, {
    config: { confirmed: true },
    schema: {
      operationId: 'decideAwards',
      summary: 'Sign certifications that wait, or refuse them; all or none',
      tags: ['certifications'],
      body: AwardDecisionBody,
      response: { 201: AwardDecisionsMade, ...answers },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await decideAwards(context, actorOf(request), request.body)),
  })

  route(app, endpoints.takeBackAwardDecision, {
    schema: {
      operationId: 'takeBackAwardDecision',
      summary: 'Take an approval or a refusal back: the certification waits again',
      tags: ['certifications'],
      params: IdParams,
      body: TakeBackBody,
      response: { 200: Created, ...answers },
    },
    handler: (request) => takeBack(context, actorOf(request), 'decision', request.params.id, request.body.reason),
  })
}

const addExtensions: Routes = (app, context) => {
  route(app, endpoints.getCommandersWords, {
    schema: {
      operationId: 'getCommandersWords',
      summary: 'Approvals, refusals and extensions of a soldier’s certifications, the latest first',
      tags: ['certifications'],
      params: IdParams,
      response: { 200: CommandersWords, ...failures, ...notFound },
    },
    handler: (request) => findWords(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.extendCertification, {
    schema: {
      operationId: 'extendCertification',
      summary: 'Extend the certification in force by days, within what its terms allow',
      tags: ['certifications'],
      body: ExtensionBody,
      response: { 201: Created, ...answers },
    },
    handler: async (request, reply) => reply.code(201).send(await extendAward(context, actorOf(request), request.body)),
  })

  route(app, endpoints.takeBackExtension, {
    schema: {
      operationId: 'takeBackExtension',
      summary: 'Take an extension back: the certification ends as if it had never been',
      tags: ['certifications'],
      params: IdParams,
      body: TakeBackBody,
      response: { 200: Created, ...answers },
    },
    handler: (request) => takeBack(context, actorOf(request), 'extension', request.params.id, request.body.reason),
  })
}
