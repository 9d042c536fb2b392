//! Places on a circle, in whole numbers: four hundred steps a turn, from the top the way a clock goes.

/// Steps in a turn.
pub(super) const STEPS: i64 = 400;
/// The sine of each step of the first quarter, in ten-thousandths.
const SINE: [i64; 101] = [
    0, 157, 314, 471, 628, 785, 941, 1097, 1253, 1409, 1564, 1719, 1874, 2028, 2181, 2334, 2487, 2639, 2790,
    2940, 3090, 3239, 3387, 3535, 3681, 3827, 3971, 4115, 4258, 4399, 4540, 4679, 4818, 4955, 5090, 5225,
    5358, 5490, 5621, 5750, 5878, 6004, 6129, 6252, 6374, 6494, 6613, 6730, 6845, 6959, 7071, 7181, 7290,
    7396, 7501, 7604, 7705, 7804, 7902, 7997, 8090, 8181, 8271, 8358, 8443, 8526, 8607, 8686, 8763, 8838,
    8910, 8980, 9048, 9114, 9178, 9239, 9298, 9354, 9409, 9461, 9511, 9558, 9603, 9646, 9686, 9724, 9759,
    9792, 9823, 9851, 9877, 9900, 9921, 9940, 9956, 9969, 9980, 9989, 9995, 9999, 10_000,
];

/// The step at which a part of a turn stands.
pub(super) fn step(part: i64, turn: i64) -> i64 {
    (2 * part * STEPS + turn).div_euclid(2 * turn)
}

/// How far right of the centre, and how far above it, a step stands on a circle.
pub(super) fn on_circle(radius: i64, step: i64) -> (i64, i64) {
    (scaled(radius, sine(step)), scaled(radius, sine(step + STEPS / 4)))
}

fn scaled(radius: i64, of: i64) -> i64 {
    (2 * radius * of + 10_000).div_euclid(20_000)
}

fn sine(step: i64) -> i64 {
    let step = step.rem_euclid(STEPS);
    let (half, sign) = if step < STEPS / 2 { (step, 1) } else { (step - STEPS / 2, -1) };
    let quarter = half.min(STEPS / 2 - half);
    sign * SINE[usize::try_from(quarter).expect("within a quarter")]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_lies_on_the_circle() {
        for n in 0..STEPS {
            let (right, up) = on_circle(10_000, n);
            let off = right * right + up * up - 100_000_000;
            assert!(off.abs() < 20_000, "step {n}: {right}, {up}");
        }
        assert_eq!([0, 100, 200, 300].map(|n| on_circle(50, n)), [(0, 50), (50, 0), (0, -50), (-50, 0)]);
        assert_eq!(on_circle(10_000, 50), (7071, 7071));
    }

    #[test]
    fn parts_of_a_turn_come_to_their_steps() {
        assert_eq!([0, 1, 25, 99].map(|part| step(part, 100)), [0, 4, 100, 396]);
        assert_eq!(step(1, 80), 5);
    }
}
