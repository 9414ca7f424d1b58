/** The example of the scenario contract, with a number in place of its one tape word. */

export const ORCHARD = `berth: 1                       # format
title: Orchard sprayer, four-cylinder to V8
units: in                      # in | mm; required; unit-less numbers and fractions are in it
driver: left
origin: front axle centreline, frame centre, rail top      # the chassis datum, in words
datums:
  chassis: { front axle: { x: 0 }, frame centre: { y: 0 }, rail top: { z: 0 }, floor: { z: -24 } }
  engine: { pulley face: { x: -26 }, carb pad: { z: 19 } }
rake: 0                        # degrees, nose down; the reading on a level floor is printed too
position:                      # how far the search may go; one number pins it
  setback: [20, 32]
  offset: [-2, 2]
  height: [0, 5]
  pitch: [0, 5]
engine:
  block: { kind: block, box: { x: [-22, 0], y: [-10, 10], z: [-4, 8] } }
  fan: { kind: mechanical fan, cylinder: { axis: x, from: -30, to: -28, center: [0, 3], diameter: 17 } }
  oil filter: { kind: oil filter, cylinder: { axis: z, from: -9, to: -4, center: [-18, 7], diameter: 3 3/4 }, comes out: { z: [-4, 0] } }
  left header: { kind: header, mirror: right header, tube: { through: [[-16, -12, 6], [-8, -14, 0], [-2, -14, -8]], diameter: 3 } }
rock: 2                        # degrees each way about the crankshaft, under torque
chassis:
  radiator: { kind: radiator, box: { x: [-12, -9], y: [-14, 14], z: [-6, 20] }, sweep: { x: [0, 1/2] } }
  front crossmember: { kind: crossmember, prism: { axis: y, from: -14, to: 14, profile: [[-4, -9], [4, -9], [4, -5], [-4, -5]] } }
groups: { headers: [left header, right header] }
rulebook: common practice
rules:
  - { between: [fan, radiator], gap: 2, measured: fore-aft, side: ahead, why: a flexing frame brings the core to the fan }
  - { between: [engine, chassis], gap: 1/2 }          # everything not named otherwise
limits:
  - { quantity: pitch, min: 2, max: 4, why: driveline }
choices:
  oil filter:
    on the block: {}
    remote: { remove: [oil filter], hours: 1.5, cost: 90 }
  front plate:
    none: {}
    motor plate: { move: { fan: { x: -3/8 } }, hours: 3, cost: 160 }
trims:
  - { part: front crossmember, cut: down, over: { y: [4, 10] }, up to: 1, hours: 2, plus: { hours: 3, per: 1 in } }
worth: 1/8                     # a change must buy at least this much margin
not fitted: [brake booster]
`;
