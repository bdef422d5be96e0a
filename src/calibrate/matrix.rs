//! Small dense systems: Householder least squares and Cholesky, for two to six unknowns.

/// A column of a matrix counts as dependent if this share of its length, or less, is left beside the columns before it.
const DEPENDENT: f64 = 1e-9;

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// `matrix` times `vector`.
pub(super) fn product(matrix: &[Vec<f64>], vector: &[f64]) -> Vec<f64> {
    matrix.iter().map(|row| dot(row, vector)).collect()
}

/// v' M v.
pub(super) fn quadratic(matrix: &[Vec<f64>], vector: &[f64]) -> f64 {
    dot(vector, &product(matrix, vector))
}

/// J M J'.
pub(super) fn transformed(jacobian: &[Vec<f64>], matrix: &[Vec<f64>]) -> Vec<Vec<f64>> {
    jacobian
        .iter()
        .map(|left| jacobian.iter().map(|right| dot(left, &product(matrix, right))).collect())
        .collect()
}

/// Least squares by Householder reflections.
pub(super) struct LeastSquares {
    pub(super) solution: Vec<f64>,
    pub(super) residual_sum: f64,
    /// Inverse of X'X.
    pub(super) inverse: Vec<Vec<f64>>,
}

/// Solves X b = y in the sense of least squares; `None` if a column depends on those before it.
pub(super) fn least_squares(x: &[Vec<f64>], y: &[f64]) -> Option<LeastSquares> {
    let unknowns = x.first()?.len();
    if x.len() < unknowns {
        return None;
    }
    let (mut x, mut y) = (x.to_vec(), y.to_vec());
    for column in 0..unknowns {
        let whole = x.iter().map(|row| row[column] * row[column]).sum::<f64>().sqrt();
        let below = x[column..].iter().map(|row| row[column] * row[column]).sum::<f64>().sqrt();
        if !(whole > 0.0 && below > DEPENDENT * whole) {
            return None;
        }
        let head = x[column][column];
        let diagonal = if head > 0.0 { -below } else { below };
        let mut reflector: Vec<f64> = x[column..].iter().map(|row| row[column]).collect();
        reflector[0] -= diagonal;
        let scale = 2.0 / dot(&reflector, &reflector);
        for target in column..unknowns {
            let along: f64 =
                reflector.iter().zip(&x[column..]).map(|(part, row)| part * row[target]).sum::<f64>() * scale;
            for (part, row) in reflector.iter().zip(&mut x[column..]) {
                row[target] -= along * part;
            }
        }
        let along = dot(&reflector, &y[column..]) * scale;
        for (part, value) in reflector.iter().zip(&mut y[column..]) {
            *value -= along * part;
        }
    }
    let solution = back_substituted(&x, &y[..unknowns]);
    let columns: Vec<Vec<f64>> = (0..unknowns).map(|at| back_substituted(&x, &unit(unknowns, at))).collect();
    let inverse = (0..unknowns)
        .map(|row| (0..unknowns).map(|other| columns.iter().map(|c| c[row] * c[other]).sum()).collect())
        .collect();
    Some(LeastSquares { solution, residual_sum: dot(&y[unknowns..], &y[unknowns..]), inverse })
}

fn back_substituted(upper: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let mut solution = right.to_vec();
    for row in (0..right.len()).rev() {
        let known = dot(&upper[row][row + 1..right.len()], &solution[row + 1..]);
        solution[row] = (solution[row] - known) / upper[row][row];
    }
    solution
}

fn unit(length: usize, at: usize) -> Vec<f64> {
    (0..length).map(|place| if place == at { 1.0 } else { 0.0 }).collect()
}

/// Cholesky factor of a matrix brought to a diagonal of ones.
pub(super) struct Cholesky {
    factor: Vec<Vec<f64>>,
    scale: Vec<f64>,
}

impl Cholesky {
    /// `None` if the matrix is not positive definite.
    pub(super) fn of(matrix: &[Vec<f64>]) -> Option<Self> {
        let size = matrix.len();
        let diagonal: Vec<f64> = (0..size).map(|at| matrix[at][at]).collect();
        if !diagonal.iter().all(|value| *value > 0.0 && value.is_finite()) {
            return None;
        }
        let scale: Vec<f64> = diagonal.iter().map(|value| value.sqrt()).collect();
        let mut factor = vec![vec![0.0; size]; size];
        for row in 0..size {
            for column in 0..=row {
                let known = dot(&factor[row][..column], &factor[column][..column]);
                let rest = matrix[row][column] / (scale[row] * scale[column]) - known;
                if row > column {
                    factor[row][column] = rest / factor[column][column];
                } else if rest > 0.0 {
                    factor[row][row] = rest.sqrt();
                } else {
                    return None;
                }
            }
        }
        Some(Self { factor, scale })
    }

    /// Smallest share of an unknown's information that is not shared with those before it.
    pub(super) fn least_own_share(&self) -> f64 {
        (0..self.scale.len()).map(|at| self.factor[at][at].powi(2)).fold(1.0, f64::min)
    }

    pub(super) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let size = right.len();
        let mut solution: Vec<f64> =
            right.iter().zip(&self.scale).map(|(value, scale)| value / scale).collect();
        for row in 0..size {
            let known = dot(&self.factor[row][..row], &solution[..row]);
            solution[row] = (solution[row] - known) / self.factor[row][row];
        }
        for row in (0..size).rev() {
            let known: f64 = (row + 1..size).map(|below| self.factor[below][row] * solution[below]).sum();
            solution[row] = (solution[row] - known) / self.factor[row][row];
        }
        solution.iter().zip(&self.scale).map(|(value, scale)| value / scale).collect()
    }

    pub(super) fn inverse(&self) -> Vec<Vec<f64>> {
        let size = self.scale.len();
        (0..size).map(|at| self.solve(&unit(size, at))).collect()
    }
}
