/** The bench comes apart from the page: who only looks at a machine moving does not wait for it. */
import { lazy, Suspense } from 'react'

const Bench = lazy(async () => ({ default: (await import('./Bench.tsx')).Bench }))

export function BenchDoor() {
  return (
    <Suspense fallback={<p className="quiet">The bench is being laid out.</p>}>
      <Bench />
    </Suspense>
  )
}
