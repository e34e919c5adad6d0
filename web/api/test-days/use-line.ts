import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import * as endpoints from '#contract/test-days/endpoints.ts'
import { addressOf } from '../address-of.ts'
import { lineQuery } from './line.ts'

const POLL_MS = 15_000

/**
 * The line of a test day as it changes. The server says when to ask again; while its stream is broken the page asks every
 * fifteen seconds, and `isLive` is false.
 */
export const useLine = (testDayId: string) => {
  const client = useQueryClient()
  const [isLive, setLive] = useState(true)
  const line = useQuery({ ...lineQuery(testDayId), refetchInterval: isLive ? false : POLL_MS })
  useEffect(() => {
    const stream = new EventSource(addressOf(endpoints.followTestDayLine, { params: { id: testDayId } }))
    const askAgain = () => {
      setLive(true)
      void client.invalidateQueries({ queryKey: lineQuery(testDayId).queryKey })
    }
    stream.addEventListener('open', () => setLive(true))
    stream.addEventListener('changed', askAgain)
    stream.addEventListener('error', () => setLive(false))
    return () => stream.close()
  }, [client, testDayId])
  return { line, isLive }
}
