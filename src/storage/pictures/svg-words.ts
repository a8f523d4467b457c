/*
 * What a mark may be drawn with: still shapes, words, colours and pictures carried along. Whatever stands on neither list is
 * left out; what runs, fetches or holds another document is refused outright (see clean-svg.ts).
 */

const words = (text: string): ReadonlySet<string> => new Set(text.trim().split(/\s+/));

/** Elements of SVG 2 that draw and stand still. */
export const DRAWN = words(`
  svg g defs symbol use switch path rect circle ellipse line polyline polygon text tspan textPath image
  linearGradient radialGradient stop pattern clipPath mask marker style
  filter feBlend feColorMatrix feComponentTransfer feComposite feFlood feFuncA feFuncB feFuncG feFuncR
  feGaussianBlur feMerge feMergeNode feMorphology feOffset
`);

/** Elements that run, or bring in something from elsewhere. */
export const FORBIDDEN = words(`
  script foreignObject iframe embed object audio video source canvas handler listener feImage
`);

/** Attributes of geometry and of presentation. */
export const SAID = words(`
  id class version viewBox preserveAspectRatio width height x y x1 y1 x2 y2 cx cy r rx ry fx fy fr d points
  transform gradientTransform patternTransform gradientUnits patternUnits patternContentUnits spreadMethod
  clipPathUnits maskUnits maskContentUnits markerUnits markerWidth markerHeight orient refX refY offset pathLength
  dx dy rotate textLength lengthAdjust startOffset method spacing
  fill fill-opacity fill-rule stroke stroke-width stroke-linecap stroke-linejoin stroke-miterlimit stroke-dasharray
  stroke-dashoffset stroke-opacity opacity color stop-color stop-opacity clip-path clip-rule mask display visibility
  overflow marker-start marker-mid marker-end paint-order vector-effect shape-rendering text-rendering
  image-rendering color-interpolation color-interpolation-filters mix-blend-mode isolation
  font-family font-size font-style font-variant font-weight font-stretch font-kerning letter-spacing word-spacing
  text-anchor text-decoration dominant-baseline alignment-baseline baseline-shift writing-mode direction unicode-bidi
  filter filterUnits primitiveUnits flood-color flood-opacity in in2 result stdDeviation type values mode operator
  k1 k2 k3 k4 radius amplitude exponent intercept slope tableValues edgeMode style href
`);
