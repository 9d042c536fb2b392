//! Item analysis: of each question how many had it right and whether it tells good readers from poor ones, of the whole how far
//! a score can be trusted. Variances have the number of people as divisor throughout.

use crate::learner::progress::{Interval, Score, Z_95};

/// Fewer people than this are too few to judge a question by.
pub const ENOUGH: usize = 20;
/// The share of people at either end that is compared.
const END: f64 = 0.27;

/// The analysis of a set of questions that all were answered by the same people.
#[derive(Clone, Debug, PartialEq)]
pub struct Analysis {
    /// One entry a question.
    pub items: Vec<Item>,
    /// How many people.
    pub people: usize,
    /// The mean score.
    pub mean: f64,
    /// The standard deviation of the scores.
    pub spread: f64,
    /// The reliability of Kuder and Richardson (formula 20); none where it is not defined.
    pub kr20: Option<f64>,
    /// Their formula 21, which takes all questions for equally hard.
    pub kr21: Option<f64>,
    /// The standard error of measurement, in questions.
    pub error: Option<f64>,
}

/// What is known of one question.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Item {
    /// How many had it right.
    pub score: Score,
    /// The share right.
    pub difficulty: f64,
    /// Its 95 % Wilson interval.
    pub interval: Option<Interval>,
    /// The point-biserial correlation with the score.
    pub with_score: Option<f64>,
    /// The same with the score of the other questions: the one to look at.
    pub with_rest: Option<f64>,
    /// Its 95 % interval, by Fisher's transformation.
    pub with_rest_interval: Option<Interval>,
    /// The share right among the best less that among the poorest 27 %.
    pub upper_lower: Option<f64>,
    /// The reliability of the others without it.
    pub kr20_without: Option<f64>,
}

/// Analyses answers: one row a person, one column a question, true where it was right. None where rows differ in length or there is
/// nothing to analyse.
pub fn analysis(rows: &[Vec<bool>]) -> Option<Analysis> {
    let count = rows.first()?.len();
    if count == 0 || rows.iter().any(|row| row.len() != count) {
        return None;
    }
    let scores: Vec<f64> = rows.iter().map(|row| right_of(row)).collect();
    let all: Vec<usize> = (0..count).collect();
    let (mean, variance) = moments(&scores);
    let items = (0..count).map(|at| item(rows, &scores, at)).collect();
    let kr20 = kr20(rows, &all);
    let k = whole(count);
    let kr21 =
        (count > 1 && variance > 0.0).then(|| k / (k - 1.0) * (1.0 - mean * (k - mean) / (k * variance)));
    let error = kr20.map(|reliability| (variance * (1.0 - reliability)).max(0.0).sqrt());
    Some(Analysis { items, people: rows.len(), mean, spread: variance.sqrt(), kr20, kr21, error })
}

fn item(rows: &[Vec<bool>], scores: &[f64], at: usize) -> Item {
    let column: Vec<bool> = rows.iter().map(|row| row[at]).collect();
    let answered = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let right = u32::try_from(column.iter().filter(|right| **right).count()).unwrap_or(u32::MAX);
    let score = Score { answered, right };
    let rest: Vec<f64> = scores.iter().zip(&column).map(|(score, right)| score - one(*right)).collect();
    let others: Vec<usize> = (0..rows[0].len()).filter(|other| *other != at).collect();
    let with_rest = point_biserial(&column, &rest);
    Item {
        score,
        difficulty: f64::from(right) / f64::from(answered.max(1)),
        interval: score.wilson(Z_95),
        with_score: point_biserial(&column, scores),
        with_rest,
        with_rest_interval: with_rest.and_then(|r| fisher(r, rows.len())),
        upper_lower: upper_lower(&column, scores),
        kr20_without: kr20(rows, &others),
    }
}

/// `(M1 - M0) / S * sqrt(p q)`: none where all answered alike or all scores are the same.
fn point_biserial(column: &[bool], scores: &[f64]) -> Option<f64> {
    let (_, variance) = moments(scores);
    let of = |wanted: bool| -> Vec<f64> {
        let mine = column.iter().zip(scores).filter(|(right, _)| **right == wanted);
        mine.map(|(_, score)| *score).collect()
    };
    let (right, wrong) = (of(true), of(false));
    if right.is_empty() || wrong.is_empty() || variance <= 0.0 {
        return None;
    }
    let p = whole(right.len()) / whole(column.len());
    Some((moments(&right).0 - moments(&wrong).0) / variance.sqrt() * (p * (1.0 - p)).sqrt())
}

/// The correlation of two rows of numbers; none where one of them does not vary. Of a row of noughts and ones it is the
/// point-biserial correlation.
pub fn correlation(one: &[f64], other: &[f64]) -> Option<f64> {
    let ((mean_one, variance_one), (mean_other, variance_other)) = (moments(one), moments(other));
    if one.len() != other.len() || variance_one <= 0.0 || variance_other <= 0.0 {
        return None;
    }
    let products = one.iter().zip(other).map(|(a, b)| (a - mean_one) * (b - mean_other)).sum::<f64>();
    Some(products / whole(one.len()) / (variance_one * variance_other).sqrt())
}

/// The 95 % interval of a correlation among so many people; none for three or fewer.
pub fn fisher(r: f64, people: usize) -> Option<Interval> {
    if people <= 3 || r.abs() >= 1.0 {
        return None;
    }
    let half = Z_95 / (whole(people) - 3.0).sqrt();
    Some(Interval { low: (r.atanh() - half).tanh(), high: (r.atanh() + half).tanh() })
}

/// Best and poorest as the scores have it, who stand first first where they are level; none among fewer than four.
fn upper_lower(column: &[bool], scores: &[f64]) -> Option<f64> {
    let mut order: Vec<usize> = (0..scores.len()).collect();
    order.sort_by(|a, b| scores[*b].total_cmp(&scores[*a]));
    let end = (1..=scores.len()).rfind(|end| whole(*end) <= (whole(scores.len()) * END).round())?;
    if scores.len() < 4 {
        return None;
    }
    let share =
        |people: &[usize]| people.iter().map(|at| one(column[*at])).sum::<f64>() / whole(people.len());
    Some(share(&order[..end]) - share(&order[scores.len() - end..]))
}

fn kr20(rows: &[Vec<bool>], columns: &[usize]) -> Option<f64> {
    if columns.len() < 2 {
        return None;
    }
    let scores: Vec<f64> = rows.iter().map(|row| columns.iter().map(|at| one(row[*at])).sum()).collect();
    let (_, variance) = moments(&scores);
    if variance <= 0.0 {
        return None;
    }
    let people = whole(rows.len());
    let share = |at: &usize| rows.iter().map(|row| one(row[*at])).sum::<f64>() / people;
    let within: f64 = columns.iter().map(share).map(|p| p * (1.0 - p)).sum();
    let k = whole(columns.len());
    Some(k / (k - 1.0) * (1.0 - within / variance))
}

/// Mean and variance, the number itself as divisor.
fn moments(numbers: &[f64]) -> (f64, f64) {
    let count = whole(numbers.len().max(1));
    let mean = numbers.iter().sum::<f64>() / count;
    (mean, numbers.iter().map(|number| (number - mean).powi(2)).sum::<f64>() / count)
}

fn right_of(row: &[bool]) -> f64 {
    row.iter().map(|right| one(*right)).sum()
}

fn one(right: bool) -> f64 {
    f64::from(u8::from(right))
}

fn whole(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

#[cfg(test)]
pub(in crate::class) mod testing {
    /// Section 6 of the Law School Admission Test, 1,000 people, 5 questions: the patterns and their counts as published by Bock and
    /// Lieberman (1970) and shipped as `lsat6` in the R packages psych, ltm and mirt.
    pub const LSAT_6: [(&str, usize); 30] = [
        ("00000", 3),
        ("00001", 6),
        ("00010", 2),
        ("00011", 11),
        ("00100", 1),
        ("00101", 1),
        ("00110", 3),
        ("00111", 4),
        ("01000", 1),
        ("01001", 8),
        ("01011", 16),
        ("01101", 3),
        ("01110", 2),
        ("01111", 15),
        ("10000", 10),
        ("10001", 29),
        ("10010", 14),
        ("10011", 81),
        ("10100", 3),
        ("10101", 28),
        ("10110", 15),
        ("10111", 80),
        ("11000", 16),
        ("11001", 56),
        ("11010", 21),
        ("11011", 173),
        ("11100", 11),
        ("11101", 61),
        ("11110", 28),
        ("11111", 298),
    ];
}

#[cfg(test)]
mod tests {
    use super::testing::LSAT_6;
    use super::*;

    fn lsat_rows() -> Vec<Vec<bool>> {
        let row = |pattern: &str| pattern.chars().map(|digit| digit == '1').collect::<Vec<bool>>();
        LSAT_6.iter().flat_map(|(pattern, count)| vec![row(pattern); *count]).collect()
    }

    fn lsat() -> Analysis {
        analysis(&lsat_rows()).expect("answers")
    }

    fn near(found: f64, published: f64, digits: f64) {
        assert!((found - published).abs() < digits, "{found} for {published}");
    }

    /// Difficulties, mean and reliability of that data as the R package ltm prints them.
    #[test]
    fn the_published_questions() {
        let found = lsat();
        assert_eq!(found.people, 1000);
        near(found.mean, 3.819, 1e-9);
        near(found.spread * (1000.0_f64 / 999.0).sqrt(), 1.035_041, 1e-6);
        near(found.kr20.expect("defined"), 0.29500, 1e-5);
        near(found.kr21.expect("defined"), 0.19644, 1e-5);
        near(found.error.expect("defined"), 0.869, 5e-4);
        let table = [
            (0.924, 0.3620, 0.1128, 0.2754),
            (0.709, 0.5668, 0.1532, 0.2376),
            (0.553, 0.6184, 0.1728, 0.2168),
            (0.763, 0.5344, 0.1444, 0.2459),
            (0.870, 0.4354, 0.1216, 0.2663),
        ];
        for (item, (difficulty, with_score, with_rest, without)) in found.items.iter().zip(table) {
            near(item.difficulty, difficulty, 1e-9);
            near(item.with_score.expect("defined"), with_score, 6e-5);
            near(item.with_rest.expect("defined"), with_rest, 6e-5);
            near(item.kr20_without.expect("defined"), without, 6e-5);
        }
    }

    /// Of noughts and ones the correlation is the point-biserial one, here that of the published questions.
    #[test]
    fn a_correlation_of_noughts_and_ones() {
        let rows = lsat_rows();
        let scores: Vec<f64> = rows.iter().map(|row| right_of(row)).collect();
        for (at, published) in [0.3620, 0.5668, 0.6184, 0.5344, 0.4354].into_iter().enumerate() {
            let column: Vec<f64> = rows.iter().map(|row| one(row[at])).collect();
            near(correlation(&column, &scores).expect("they vary"), published, 6e-5);
        }
        assert_eq!(correlation(&[1.0, 1.0], &[1.0, 2.0]), None);
        assert_eq!(correlation(&[1.0, 2.0], &[1.0]), None);
    }

    /// By hand: eight people, two questions. Rounded, 27 % of eight are two: the best two had the first right, the poorest two
    /// had not.
    #[test]
    fn best_and_poorest() {
        let rows: Vec<Vec<bool>> = (0..8).map(|n| vec![n < 4, n < 2]).collect();
        let found = analysis(&rows).expect("answers");
        assert_eq!(found.items[0].upper_lower, Some(1.0));
        assert_eq!(found.items[0].score, Score { answered: 8, right: 4 });
    }

    /// Fisher's transformation by hand: r = 0.5 among 28 people, atanh 0.549306, half-width 1.959964 / 5 = 0.391993; tanh of
    /// 0.157313 and 0.941299.
    #[test]
    fn the_interval_of_a_correlation() {
        let found = fisher(0.5, 28).expect("enough people");
        near(found.low, 0.156_028, 1e-6);
        near(found.high, 0.735_818, 1e-5);
        assert!(fisher(0.5, 3).is_none());
    }

    #[test]
    fn what_cannot_be_said_is_not() {
        assert!(analysis(&[]).is_none());
        assert!(analysis(&[vec![true], vec![]]).is_none());
        let same = analysis(&[vec![true, true], vec![true, true]]).expect("answers");
        assert_eq!((same.kr20, same.items[0].with_rest, same.items[0].upper_lower), (None, None, None));
    }
}
