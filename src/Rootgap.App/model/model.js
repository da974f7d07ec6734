// The model of a drawing in space: turn it with a finger, tap a part to select its row.
import * as THREE from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';

const chosenColour = new THREE.Color(0xffc400);

/** A view in `host`; `told.invokeMethodAsync('Picked', component)` is called when a part is tapped. */
export function open(host, told) {
  const renderer = new THREE.WebGLRenderer({ antialias: true, alpha: true, preserveDrawingBuffer: true });
  renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
  host.appendChild(renderer.domElement);
  const scene = new THREE.Scene();
  const camera = new THREE.PerspectiveCamera(40, 1, 0.01, 1000);
  scene.add(new THREE.HemisphereLight(0xffffff, 0x55504a, 2.2));
  const lamp = new THREE.DirectionalLight(0xffffff, 1.6);
  lamp.position.set(3, 8, 5);
  scene.add(lamp);
  const controls = new OrbitControls(camera, renderer.domElement);
  controls.enableDamping = false;
  const loader = new GLTFLoader();
  let shown = null;
  let chosen = new Set();
  let centre = null;
  let turn = 0;

  const draw = () => renderer.render(scene, camera);
  controls.addEventListener('change', draw);

  const fit = () => {
    const { clientWidth: width, clientHeight: height } = host;
    if (width === 0 || height === 0) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    draw();
  };
  const watcher = new ResizeObserver(fit);
  watcher.observe(host);

  const partOf = node => {
    for (let n = node; n; n = n.parent)
      if (n.userData && n.userData.component) return n.userData.component;
    return '';
  };

  const paint = () => {
    if (!shown) return;
    shown.traverse(n => {
      if (!n.isMesh) return;
      if (!n.userData.plain) n.userData.plain = n.material;
      const isChosen = chosen.has(partOf(n));
      if (isChosen && n.material === n.userData.plain) {
        n.material = n.userData.plain.clone();
        n.material.color = chosenColour;
        n.material.emissive = new THREE.Color(0x8a5200);
      } else if (!isChosen && n.material !== n.userData.plain) {
        n.material.dispose();
        n.material = n.userData.plain;
      }
    });
    draw();
  };

  /** How far off the camera must stand to see a whole box. */
  const away = (box, middle) => {
    const back = new THREE.Vector3(1, 0.9, 1.1).normalize();
    const right = new THREE.Vector3(0, 1, 0).cross(back).normalize();
    const up = back.clone().cross(right);
    const half = Math.tan(camera.fov / 360 * Math.PI);
    const aspect = host.clientWidth && host.clientHeight ? host.clientWidth / host.clientHeight : 1;
    let far = 0.1;
    for (let i = 0; i < 8; i++) {
      const corner = new THREE.Vector3(i & 1 ? box.max.x : box.min.x, i & 2 ? box.max.y : box.min.y, i & 4 ? box.max.z : box.min.z).sub(middle);
      far = Math.max(far, corner.dot(back) + Math.max(Math.abs(corner.dot(up)) / half, Math.abs(corner.dot(right)) / half / aspect));
    }
    return far * 1.06;
  };

  const look = () => {
    const box = new THREE.Box3().setFromObject(shown);
    if (box.isEmpty()) return;
    const middle = box.getCenter(new THREE.Vector3());
    const reach = Math.max(box.getSize(new THREE.Vector3()).length() / 2, 0.05);
    if (centre === null) {
      // As on the isometric: from the south-east and above, as near as all of it is seen.
      camera.position.copy(middle).add(new THREE.Vector3(1, 0.9, 1.1).normalize().multiplyScalar(away(box, middle)));
    } else {
      camera.position.add(middle.clone().sub(centre));
    }
    camera.near = reach / 100;
    camera.far = reach * 40;
    camera.updateProjectionMatrix();
    controls.target.copy(middle);
    centre = middle;
    controls.update();
  };

  let down = null;
  renderer.domElement.addEventListener('pointerdown', e => { down = [e.clientX, e.clientY]; });
  renderer.domElement.addEventListener('pointerup', e => {
    if (!down || !shown || Math.hypot(e.clientX - down[0], e.clientY - down[1]) > 6) return;
    const frame = renderer.domElement.getBoundingClientRect();
    const ray = new THREE.Raycaster();
    ray.setFromCamera(new THREE.Vector2((e.clientX - frame.left) / frame.width * 2 - 1, 1 - (e.clientY - frame.top) / frame.height * 2), camera);
    const hit = ray.intersectObject(shown, true)[0];
    if (hit) told.invokeMethodAsync('Picked', partOf(hit.object));
  });

  return {
    /** Shows a model (bytes of a .glb); the view stays as it was turned. */
    async show(bytes) {
      const mine = ++turn;
      const copy = bytes.slice().buffer;
      const made = await loader.parseAsync(copy, '');
      if (mine !== turn) return;
      if (shown) {
        scene.remove(shown);
        shown.traverse(n => { if (n.isMesh) { n.geometry.dispose(); n.material.dispose(); n.userData.plain?.dispose(); } });
      }
      shown = made.scene;
      scene.add(shown);
      look();
      fit();
      paint();
      // How many are shown stands at the element, for whoever looks from outside.
      host.dataset.parts = new Set(this.parts()).size;
    },
    /** Marks the parts with these ids. */
    select(components) {
      chosen = new Set(components);
      paint();
    },
    /** How many parts are shown, and where one of them stands in the picture: for tests. */
    parts() {
      const found = [];
      if (shown) shown.traverse(n => { if (n.userData && n.userData.component) found.push(n.userData.component); });
      return found;
    },
    again() {
      centre = null;
      if (shown) { look(); draw(); }
    },
    close() {
      watcher.disconnect();
      controls.dispose();
      renderer.dispose();
      renderer.domElement.remove();
    },
  };
}
