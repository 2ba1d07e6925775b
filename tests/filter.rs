//! The particle filter against exact answers: Kalman's on a linear Gaussian walk, and the closed form
//! of a mean that is observed with noise.

use combcast_core::Error;
use combcast_core::ensemble::Alone;
use combcast_core::filter::{self, Filter, Key, Model, Settings, Weighed};
use combcast_core::rng::{Topic, stream};
use nalgebra::{Matrix1, Matrix2, Vector2};
use rand::RngExt;
use rand_pcg::Pcg64Mcg;

/// A standard normal number (Box & Muller 1958).
fn normal(dice: &mut Pcg64Mcg) -> f64 {
    let (a, b): (f64, f64) = (dice.random(), dice.random());
    (-2.0 * (1.0 - a).ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

/// A level that drifts by a slope that wanders; the level is observed.
struct Drift {
    observed: Vec<f64>,
    move_error: [f64; 2],
    read_error: f64,
}

#[derive(Clone)]
struct Place {
    number: u32,
    at: [f64; 2],
}

impl Model for Drift {
    type Particle = Place;

    fn start(&self, number: u32) -> Result<Place, Error> {
        let mut dice = stream(8, number, Topic::Luck, 0);
        let at = [2.0 * normal(&mut dice), 0.5 * normal(&mut dice)];
        Ok(Place { number, at })
    }

    fn advance(&self, place: &mut Place, step: usize) -> Result<(), Error> {
        let mut dice = stream(8, place.number, Topic::Luck, step as u32 + 1);
        place.at[0] += place.at[1] + self.move_error[0] * normal(&mut dice);
        place.at[1] += self.move_error[1] * normal(&mut dice);
        Ok(())
    }

    fn log_likelihood(&self, place: &Place, step: usize) -> f64 {
        log_normal(self.observed[step] - place.at[0], self.read_error)
    }

    fn part(&self, place: &mut Place, number: u32, _: usize) {
        place.number = number;
    }
}

fn log_normal(far: f64, error: f64) -> f64 {
    -0.5 * (far / error).powi(2) - (error * std::f64::consts::TAU.sqrt()).ln()
}

#[test]
fn a_linear_walk_has_kalmans_answer() {
    let model = Drift {
        observed: vec![0.8, 1.9, 2.4, 3.9, 4.2, 5.9, 6.1, 7.7],
        move_error: [0.4, 0.2],
        read_error: 0.6,
    };
    let (mut mean, mut spread) = (
        Vector2::zeros(),
        Matrix2::from_diagonal(&Vector2::new(4.0, 0.25)),
    );
    let go = Matrix2::new(1.0, 1.0, 0.0, 1.0);
    let moved = Matrix2::from_diagonal(&Vector2::from(model.move_error.map(|e| e * e)));
    let see = nalgebra::RowVector2::new(1.0, 0.0);
    let mut exact = 0.0;
    for observed in &model.observed {
        mean = go * mean;
        spread = go * spread * go.transpose() + moved;
        let error: Matrix1<f64> =
            see * spread * see.transpose() + Matrix1::new(model.read_error.powi(2));
        let far = observed - (see * mean)[0];
        exact += log_normal(far, error[0].sqrt());
        let gain = spread * see.transpose() / error[0];
        mean += gain * far;
        spread -= gain * see * spread;
    }

    let settings = Settings {
        members: 20_000,
        rounds: 0,
        seed: 3,
        keep: 0.0,
    };
    let filtered = filter::run(&model, model.observed.len(), &settings, &Alone, |_, _| {}).unwrap();
    let count = filtered.members.len() as f64;
    for k in 0..2 {
        let mean_got = filtered
            .members
            .iter()
            .map(|place| place.at[k])
            .sum::<f64>()
            / count;
        let error = spread[(k, k)].sqrt();
        let squares = filtered
            .members
            .iter()
            .map(|place| (place.at[k] - mean_got).powi(2));
        let spread_got = (squares.sum::<f64>() / count).sqrt();
        // 20,000 members, a few thousand of them effective: a hundredth or two of the spread.
        assert!(
            (mean_got - mean[k]).abs() < 0.06 * error,
            "{k}: mean {mean_got}, exactly {}",
            mean[k]
        );
        assert!(
            (spread_got / error - 1.0).abs() < 0.06,
            "{k}: spread {spread_got}, exactly {error}"
        );
    }
    let got = filtered.log_likelihood();
    assert!(
        (got - exact).abs() < 0.06,
        "log-likelihood {got}, exactly {exact}"
    );
}

/// A number that nobody knows, observed again and again: members do not move, only lives do.
struct Fixed {
    observed: Vec<f64>,
    read_error: f64,
}

impl Model for Fixed {
    type Particle = f64;

    fn start(&self, number: u32) -> Result<f64, Error> {
        Ok(normal(&mut stream(5, number, Topic::Luck, 0)))
    }

    fn advance(&self, _: &mut f64, _: usize) -> Result<(), Error> {
        Ok(())
    }

    fn log_likelihood(&self, x: &f64, step: usize) -> f64 {
        log_normal(self.observed[step] - x, self.read_error)
    }

    fn propose(
        &self,
        x: &f64,
        others: &[Weighed<f64>],
        key: Key,
    ) -> Result<Option<(f64, f64)>, Error> {
        let mut dice = stream(6, key.number, Topic::Luck, key.round);
        let one = &others[dice.random_range(0..others.len() as u32) as usize];
        let two = &others[dice.random_range(0..others.len() as u32) as usize];
        let y = x + 1.2 * (one.particle - two.particle) + 0.01 * normal(&mut dice);
        Ok(Some((y, 0.5 * (x * x - y * y))))
    }
}

#[test]
fn a_number_far_out_is_found_by_other_lives() {
    // Four standard deviations out in the prior: one member in 30,000 is born there.
    let model = Fixed {
        observed: vec![4.1, 3.8, 4.3, 4.0],
        read_error: 0.3,
    };
    let (mut mean, mut precision, mut exact) = (0.0, 1.0, 0.0);
    for observed in &model.observed {
        let error = (1.0 / precision + model.read_error * model.read_error).sqrt();
        exact += log_normal(observed - mean, error);
        let weight = 1.0 / (model.read_error * model.read_error);
        mean = (precision * mean + weight * observed) / (precision + weight);
        precision += weight;
    }
    let settings = Settings {
        members: 1000,
        rounds: 4,
        seed: 3,
        keep: 0.5,
    };
    let filtered = filter::run(&model, model.observed.len(), &settings, &Alone, |_, _| {}).unwrap();
    let count = filtered.members.len() as f64;
    let got = filtered.members.iter().sum::<f64>() / count;
    let squares = filtered.members.iter().map(|x| (x - got).powi(2));
    let spread = (squares.sum::<f64>() / count).sqrt();
    let error = (1.0 / precision).sqrt();
    assert!((got - mean).abs() < 0.2 * error, "{got}, exactly {mean}");
    assert!(
        (spread / error - 1.0).abs() < 0.15,
        "{spread}, exactly {error}"
    );
    let got = filtered.log_likelihood();
    assert!(
        (got - exact).abs() < 0.35,
        "log-likelihood {got}, exactly {exact}"
    );
    assert!(filtered.steps[0].effective < 30.0 && filtered.steps[0].parts > 2);
    assert!(
        filtered
            .steps
            .iter()
            .all(|step| step.taken > 0.1 && step.distinct > 0.6)
    );
}

#[test]
fn in_pieces_of_any_size_it_comes_to_the_same() {
    let model = Fixed {
        observed: vec![2.6, 2.4, 2.8],
        read_error: 0.3,
    };
    for rounds in [0, 2] {
        let settings = Settings {
            members: 300,
            rounds,
            seed: 3,
            keep: 0.5,
        };
        let count = model.observed.len();
        let mut looks = Vec::new();
        let whole = filter::run(&model, count, &settings, &Alone, |step, members| {
            looks.push((step, members.len()));
        });
        let whole = whole.unwrap();
        assert!(whole.steps[0].parts > 1, "{:?}", whole.steps);
        for at_most in [1, 7, 299, 300, 1000] {
            let mut filter = Filter::new(count, settings);
            let mut seen = Vec::new();
            while !filter.is_over() {
                let done = filter.done();
                let look = &mut |step, members: &[Weighed<f64>]| seen.push((step, members.len()));
                let came_to = filter.go_on(&model, at_most, &Alone, look).unwrap();
                assert!((1..=at_most).contains(&came_to), "{came_to} of {at_most}");
                assert!((done..=done + 1).contains(&filter.done()));
            }
            assert_eq!(seen, looks, "{at_most}");
            let ended = filter.end();
            assert_eq!(ended.members, whole.members, "{at_most}");
            assert_eq!(ended.steps, whole.steps, "{at_most}");
        }
    }
}
