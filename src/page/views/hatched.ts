/** Hatching on a mesh, by the place of a pixel on the screen: it needs no map of the surface. */

import type { MeshLambertMaterial } from 'three';

const LINES = `
  #ifdef BERTH_HATCHED
    if (mod(gl_FragCoord.x + BERTH_HATCHED * gl_FragCoord.y, 14.0) < 5.0) gl_FragColor = vec4(0.08, 0.07, 0.06, 1.0);
    else gl_FragColor = vec4(0.97, 0.79, 0.2, 1.0);
  #endif
`;

/** Puts hatching on, lines one way or the other, or takes it off. */
export function hatched(material: MeshLambertMaterial, way: 1 | -1 | undefined): void {
  const defines = (material.defines ??= {});
  if ((way !== undefined) === 'BERTH_HATCHED' in defines) return;
  if (way !== undefined) defines['BERTH_HATCHED'] = way.toFixed(1);
  else delete defines['BERTH_HATCHED'];
  material.onBeforeCompile = (shader) => {
    shader.fragmentShader = shader.fragmentShader.replace(/}\s*$/, `${LINES}}`);
  };
  material.needsUpdate = true;
}
