// A tress as a picture: strands from straight to coils, drawn at once as instances of one ribbon.
// The colours are the server's; light only makes them a little darker or lighter round their mean,
// so that the tress as a whole keeps the colour it was given.
import type { Paint } from './types'

export interface TressZone { from_cm: number; to_cm: number; paint: Paint }
export interface TressLook {
  zones: TressZone[]
  /** What is lost of the stretched length when the hair is left alone [0 straight to 0.9 coils]. */
  shrinkage: number
  strand_um: number
}

export const kStrands = 1200
const kPerLock = 24
export const kPieces = 120 // of one strand
export const kMostZones = 8

const linear = (part: number): number =>
  part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4 // IEC 61966-2-1

/** Linear red, green, blue of "#rrggbb" [0 to 1]. */
export function linearOf(srgb: string): [number, number, number] {
  const part = (at: number) => linear(parseInt(srgb.slice(at, at + 2), 16) / 255)
  return [part(1), part(3), part(5)]
}

/** Turns of the coil along the whole strand, and its radius as a share of the tress's width. A coil of
 *  turns n and radius r on a length h shortens a strand to h / √(h² + (2πnr)²). */
export function coilOf(shrinkage: number): { turns: number; radius: number } {
  const kept = 1 - Math.min(0.85, Math.max(0, shrinkage))
  // From loose waves to tight coils the number of turns grows faster than they narrow.
  const turns = 1.2 + 16 * shrinkage ** 1.3
  const around = Math.sqrt(1 / kept ** 2 - 1)
  return { turns, radius: around / (2 * Math.PI * turns) }
}

const kVertex = `#version 300 es
precision highp float;
uniform vec2 u_size;      // of the picture [px]
uniform float u_turns, u_radius, u_drop, u_width;
uniform int u_zones;
uniform vec4 u_colour[${kMostZones}];  // linear, and where the zone ends along the strand
out vec3 v_colour;
out float v_across;
const float kPi = 3.14159265;
float dice(float n) { return fract(sin(n * 12.9898) * 43758.5453); }
// Strands lie together in locks; a lock coils as one, and its strands keep a little to themselves.
vec3 at(float t, float id) {
  float lock = floor(id / ${kPerLock}.0);
  float around = dice(lock + 0.13) * 2.0 * kPi;
  float spread = sqrt(dice(lock + 0.71));
  vec2 root = vec2(cos(around), sin(around)) * spread;
  float open = 0.72 + 0.28 * smoothstep(0.0, 0.35, t) - 0.16 * t;
  vec2 middle = root * open * 0.34;
  float phase = dice(lock + 0.37) * 2.0 * kPi;
  float turn = 2.0 * kPi * u_turns * t * (0.9 + 0.2 * dice(lock + 0.57)) + phase;
  float r = u_radius * u_drop * smoothstep(0.0, 0.1, t) * (0.8 + 0.4 * dice(lock + 0.51));
  float own = dice(id + 0.19) * 2.0 * kPi;
  // Where there is no coil, a strand strays from its lock and comes back.
  float stray = (0.012 + 0.02 * dice(id + 0.43)) * (1.0 + 0.8 * sin(own + 5.0 * t));
  vec2 beside = vec2(cos(own), sin(own)) * stray;
  float sway = 0.012 * sin(3.0 * t + phase);
  return vec3(middle.x + beside.x + sway + r * cos(turn), 0.95 - t * u_drop,
              middle.y + beside.y + r * sin(turn));
}
void main() {
  float id = float(gl_InstanceID);
  float t = float(gl_VertexID / 2) / ${kPieces}.0;
  float side = float(gl_VertexID % 2) * 2.0 - 1.0;
  float mine = t * (0.86 + 0.14 * dice(id + 0.29));
  vec3 here = at(mine, id);
  vec3 along = normalize(at(mine + 0.004, id) - here);
  float wide = u_size.x / u_size.y;
  vec2 across = normalize(vec2(-along.y, along.x) + 1e-5);
  float thin = u_width / u_size.y * (1.0 - 0.5 * mine);
  vec2 flat_at = here.xy + across * side * thin;
  gl_Position = vec4(flat_at.x / wide * 2.0, flat_at.y * 2.0 - 1.0, -here.z * 0.5, 1.0);
  vec3 colour = u_colour[0].rgb;
  for (int i = 1; i < ${kMostZones}; ++i) {
    if (i >= u_zones) break;
    colour = mix(colour, u_colour[i].rgb, smoothstep(-0.015, 0.015, mine - u_colour[i - 1].a));
  }
  // A strand shines where it lies across the light; the light stands high and in front.
  vec3 light = normalize(vec3(-0.35, 0.75, 0.9));
  float shine = 1.0 - pow(dot(along, light), 2.0);
  float deep = 0.72 + 0.4 * smoothstep(-0.25, 0.25, here.z);
  float own = 0.92 + 0.16 * dice(id + 0.61);
  v_colour = colour * deep * own * (0.7 + 0.45 * shine) + vec3(0.05) * pow(max(0.0, shine), 24.0) * deep;
  v_across = side;
}`
const kFragment = `#version 300 es
precision highp float;
in vec3 v_colour;
in float v_across;
out vec4 o_colour;
void main() {
  vec3 c = v_colour * (1.0 - 0.25 * v_across * v_across);
  vec3 low = c * 12.92;
  vec3 high = 1.055 * pow(max(c, vec3(0.0031308)), vec3(1.0 / 2.4)) - 0.055;
  o_colour = vec4(mix(low, high, step(vec3(0.0031308), c)), 1.0);
}`

/** Draws into a canvas of its own size. False where the browser has no WebGL2. */
export function drawTress(canvas: HTMLCanvasElement, look: TressLook): boolean {
  const gl = canvas.getContext('webgl2', { antialias: true, alpha: true, preserveDrawingBuffer: true })
  if (!gl) return false
  const program = gl.createProgram()
  for (const [kind, text] of [
    [gl.VERTEX_SHADER, kVertex],
    [gl.FRAGMENT_SHADER, kFragment]
  ] as const) {
    const shader = gl.createShader(kind)
    if (!shader) return false
    gl.shaderSource(shader, text)
    gl.compileShader(shader)
    gl.attachShader(program, shader)
    gl.deleteShader(shader)
  }
  gl.linkProgram(program)
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) return false
  gl.useProgram(program)
  const place = (name: string) => gl.getUniformLocation(program, name)
  const zones = look.zones.slice(0, kMostZones)
  const length = zones.at(-1)?.to_cm ?? 1
  const colours = new Float32Array(kMostZones * 4)
  zones.forEach((zone, i) => colours.set([...linearOf(zone.paint.srgb), zone.to_cm / length], i * 4))
  const { turns, radius } = coilOf(look.shrinkage)
  const kLongest = 0.88 // of the picture's height, for straight hair
  gl.viewport(0, 0, canvas.width, canvas.height)
  gl.clearColor(0, 0, 0, 0)
  gl.enable(gl.DEPTH_TEST)
  gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT)
  gl.uniform2f(place('u_size'), canvas.width, canvas.height)
  gl.uniform1f(place('u_turns'), turns)
  gl.uniform1f(place('u_radius'), radius)
  gl.uniform1f(place('u_drop'), kLongest * (1 - 0.55 * Math.min(0.85, look.shrinkage)))
  gl.uniform1f(place('u_width'), (look.strand_um / 74) * (canvas.height / 260))
  gl.uniform1i(place('u_zones'), zones.length)
  gl.uniform4fv(place('u_colour'), colours)
  gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 2 * (kPieces + 1), kStrands)
  gl.deleteProgram(program)
  return gl.getError() === gl.NO_ERROR
}
