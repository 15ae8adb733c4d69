/**
 * The window into the scene: the fiber package drives three's renderer, on demand, so that a still page draws nothing.
 * In a frame the store is read and matrices are written; React is not involved.
 */
import { createRoot, type ReconcilerRoot, useFrame, useThree } from '@react-three/fiber'
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import type { PerspectiveCamera, WebGLRenderer } from 'three'
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js'
import type { PageStore } from '../state/store.ts'
import { usePageStore } from '../ui/usePage.ts'
import { fit, VIEWS } from './camera.ts'
import { frameMeter } from './frame-meter.ts'
import { handIn } from './hand.ts'
import { Resolution } from './resolution.ts'
import { StageSet } from './stage-set.ts'

/** So long after the last change the scene counts as at rest, and is drawn once more in full. */
const REST_MS = 150

const darkQuery = '(prefers-color-scheme: dark)'

function isDark(store: PageStore): boolean {
  const { theme } = store.getState().view
  return theme === 'system' ? matchMedia(darkQuery).matches : theme === 'dark'
}

function Contents({ store, rest }: { store: PageStore; rest: number }) {
  const draw = useThree((three) => three.invalidate)
  const three = useThree((now) => now.get)
  const resolution = useMemo(() => new Resolution(finest(), rest), [rest])
  const moving = useRef<ReturnType<typeof setTimeout>>(undefined)
  /** Something has changed: draws it, and once more in full when nothing has for a while. */
  const invalidate = useCallback(() => {
    clearTimeout(moving.current)
    const own = setTimeout(() => {
      // Frames may come further apart than that; what the hand did meanwhile is told just before the next one.
      requestAnimationFrame(() => {
        if (moving.current !== own || store.getState().play?.playing) return
        moving.current = undefined
        const ratio = resolution.rest()
        if (three().viewport.dpr !== ratio) three().setDpr(ratio)
      })
    }, REST_MS)
    moving.current = own
    draw()
  }, [draw, three, resolution, store])
  useEffect(() => () => clearTimeout(moving.current), [])
  const gl = useThree((three) => three.gl) as WebGLRenderer
  const scene = useThree((three) => three.scene)
  const camera = useThree((three) => three.camera) as PerspectiveCamera
  const stage = useMemo(() => new StageSet(isDark(store)), [store])
  const refit = useRef(true)
  const controls = useRef<OrbitControls>(undefined)
  // A view that the hand has turned is left alone; one that it has not is fitted again when the window changes.
  const moved3D = useRef(false)
  const aspect = useThree((three) => three.viewport.aspect)
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of the aspect that matters
  useEffect(() => {
    if (!moved3D.current) refit.current = true
    invalidate()
  }, [aspect, invalidate])

  useEffect(() => {
    const orbit = new OrbitControls(camera, gl.domElement)
    orbit.enablePan = false
    orbit.minDistance = 120
    orbit.maxDistance = 1800
    const moved = (): void => invalidate()
    orbit.addEventListener('change', moved)
    controls.current = orbit
    orbit.addEventListener('start', () => {
      moved3D.current = true
    })
    const release = handIn(gl.domElement, camera, stage, {
      rig: () => store.getState().session.record,
      rotorDeg: () => store.getState().session.stand.rotorDeg,
      turnTo: (rotorDeg) => store.getState().setStand({ rotorDeg }, 'turned the rotor', 'rotor'),
      letGo: () => store.getState().endGesture(),
      tapped: (path) => store.getState().show({ part: path, ...(path === '/rotor' ? {} : { workspace: 'mis-set' }) }),
      holdCamera: (held) => {
        orbit.enabled = !held
      },
    })
    scene.add(stage.group)
    window.swashtrueScene = { stage, camera, meter: frameMeter }
    invalidate()
    return () => {
      release()
      orbit.dispose()
      scene.remove(stage.group)
    }
  }, [store, camera, gl, scene, stage, invalidate])

  useEffect(() => {
    const query = matchMedia(darkQuery)
    const recolour = (): void => {
      stage.setDark(isDark(store))
      invalidate()
    }
    query.addEventListener('change', recolour)
    const unsubscribe = store.subscribe((state, before) => {
      if (state.view.theme !== before.view.theme) recolour()
      if (state.view.look !== before.view.look || state.session.record !== before.session.record) {
        refit.current = true
        moved3D.current = false
      }
      invalidate()
    })
    return () => {
      query.removeEventListener('change', recolour)
      unsubscribe()
    }
  }, [store, stage, invalidate])

  useFrame(({ viewport, setDpr }) => {
    frameMeter.begin()
    if (moving.current !== undefined) {
      const ratio = resolution.frame(performance.now())
      if (ratio !== viewport.dpr) setDpr(ratio)
    }
    const state = store.getState()
    stage.update(state)
    const bench = stage.machine?.bench
    if (refit.current && bench && controls.current) {
      refit.current = false
      const view = VIEWS.find(({ id }) => id === state.view.look) ?? VIEWS[0]
      if (view) fit(camera, view, state.session.record, bench, controls.current.target)
      controls.current.update()
    }
    frameMeter.end()
  })
  return null
}

export function SceneView() {
  const store = usePageStore()
  const holder = useRef<HTMLDivElement>(null)
  const [failed, setFailed] = useState(false)

  useEffect(() => {
    const place = holder.current
    if (!place) return
    const canvas = document.createElement('canvas')
    canvas.setAttribute('role', 'img')
    canvas.setAttribute(
      'aria-label',
      'The machine in three dimensions. Drag to look from elsewhere, pinch or scroll to come nearer.',
    )
    place.append(canvas)
    const drawnBy = renderer()
    if (drawnBy === 'none') {
      setFailed(true)
      canvas.remove()
      return
    }
    // Smooth edges while it moves would cost a processor half its frames; at rest it smooths them by drawing more finely.
    const card = drawnBy === 'card'
    const rest = card ? finest() : Math.max(2, 1.5 * finest())
    let root: ReconcilerRoot<HTMLCanvasElement> | undefined = createRoot(canvas)
    const configure = async (): Promise<void> => {
      const { width, height } = place.getBoundingClientRect()
      if (!root || width === 0 || height === 0) return
      await root.configure({
        frameloop: 'demand',
        flat: true,
        dpr: rest,
        size: { width, height, top: 0, left: 0 },
        camera: { fov: 26, near: 5, far: 6000 },
        gl: { antialias: card, alpha: true },
      })
      root?.render(<Contents store={store} rest={rest} />)
    }
    void configure()
    const observer = new ResizeObserver(() => void configure())
    observer.observe(place)
    return () => {
      observer.disconnect()
      root?.unmount()
      root = undefined
      canvas.remove()
    }
  }, [store])

  return (
    <div ref={holder} className="canvas-holder">
      {failed && (
        <p className="no-3d">
          This browser shows no 3D (WebGL is off or missing). The numbers, plots and sentences below work all the same.
        </p>
      )}
    </div>
  )
}

/** Drawn pixels to a CSS pixel: as the screen's, and no more than the eye sees. */
const finest = (): number => Math.max(1, Math.min(window.devicePixelRatio, 2))

/** What draws: a graphics card, the processor in its place, or nothing. */
function renderer(): 'card' | 'processor' | 'none' {
  const gl = document.createElement('canvas').getContext('webgl2')
  if (!gl) return 'none'
  const name = String(gl.getParameter(gl.getExtension('WEBGL_debug_renderer_info')?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER))
  gl.getExtension('WEBGL_lose_context')?.loseContext()
  return /swiftshader|llvmpipe|software|basic render/i.test(name) ? 'processor' : 'card'
}

declare global {
  interface Window {
    /** for tests in the browser: the drawn scene and the measured script time a frame */
    swashtrueScene?: { stage: StageSet; camera: PerspectiveCamera; meter: typeof frameMeter }
  }
}
