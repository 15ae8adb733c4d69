/**
 * An independent second model of the whole machine, written from the definition of the mechanism alone and sharing no
 * code with the library: rotation vectors and matrices, Newton with differences on the closure equations followed in
 * small steps from the designed pose, bisection for balls on circles, differences of differences for the coupling. Slow;
 * tests only.
 */
export { secondCoupling, type SecondCoupling } from './second-model/coupling.ts';
export { secondPredict, type Harmonics, type SecondAnswer } from './second-model/predict.ts';
