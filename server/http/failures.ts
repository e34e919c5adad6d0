import { Problem } from '../contract/errors.ts'

/** The answers that any route may give beside its own, by status. */
export const failures = {
  400: Problem.describe('The address, its parameters or the JSON cannot be read.'),
  401: Problem.describe('Not signed in.'),
  403: Problem.describe('The account may not do this, or another site sent it.'),
  413: Problem.describe('The body is too large.'),
  415: Problem.describe('The body is not JSON, or compressed otherwise than with gzip.'),
  422: Problem.describe('The content breaks a rule; errors[] says where.'),
  429: Problem.describe('Asked too often; Retry-After says how many seconds to wait.'),
  500: Problem.describe('Something unexpected; nothing was stored.'),
  503: Problem.describe('The database does not answer.'),
}

export const notFound = { 404: Problem.describe('There is no such thing.') }

export const conflict = { 409: Problem.describe('Clashes with what is stored.') }
