/** Whether there is room for the panels beside the scene; below that the page is a phone's. */
import { useSyncExternalStore } from 'react'

const WIDE = '(min-width: 761px)'

export const useWide = (): boolean =>
  useSyncExternalStore(
    (changed) => {
      const query = matchMedia(WIDE)
      query.addEventListener('change', changed)
      return () => query.removeEventListener('change', changed)
    },
    () => matchMedia(WIDE).matches,
  )
