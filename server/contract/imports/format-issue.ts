import type { z } from 'zod'

/** What is wrong with one place of a thing, in words for whoever wrote the file. `titleOf`: what a field is called. */
export function formatIssue(issue: z.core.$ZodIssue, titleOf: (field: string) => string): string {
  const place = formatPlace(issue.path, titleOf)
  const what = formatWhat(issue)
  return place === '' ? what : `${place}: ${what}`
}

/** "Post 2, tallest" of `posts`, 1, `maxHeightCm`. */
function formatPlace(path: readonly PropertyKey[], titleOf: (field: string) => string): string {
  const parts: string[] = []
  for (const step of path) {
    if (typeof step === 'number') parts.push(`${parts.pop() ?? 'Entry'}, number ${step + 1}`)
    else parts.push(titleOf(String(step)))
  }
  return parts.join(', ')
}

function formatWhat(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.message.endsWith('received undefined')
        ? 'this is missing.'
        : issue.message.startsWith('Invalid input')
          ? `${WANTED[issue.expected] ?? 'something else'} belongs here.`
          : issue.message
    case 'invalid_value':
      return issue.message.startsWith('Invalid') ? `this is one of ${issue.values.join(', ')}.` : issue.message
    case 'unrecognized_keys':
      return `nothing is called ${issue.keys.map((key) => `“${key}”`).join(' or ')} here; take it out.`
    case 'too_big':
      return issue.message.startsWith('Too big') ? `at most ${issue.maximum}${sizeOf(issue.origin)}.` : issue.message
    case 'too_small':
      return issue.message.startsWith('Too small') ? `at least ${issue.minimum}${sizeOf(issue.origin)}.` : issue.message
    case 'invalid_union':
      return issue.message.startsWith('Invalid') ? 'this cannot be read.' : issue.message
    default:
      return issue.message.startsWith('Invalid') ? 'this cannot be read.' : issue.message
  }
}

const WANTED: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'something with several fields',
}

const sizeOf = (origin: string): string => (origin === 'array' ? ' of them' : origin === 'string' ? ' characters' : '')
