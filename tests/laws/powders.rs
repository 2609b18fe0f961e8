//! Laws of weighing out and of washing.

use meniscus::chemistry::{Line, Recipe, Substance, Wash, What, Written};
use meniscus::kit::{Balance, Kept, Kit, Weight};
use meniscus::quantity::{Mass, Volume};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample;

use super::{close, tries};

fn lines() -> impl Strategy<Value = Vec<Line>> {
    let one = (sample::select(Substance::ALL.to_vec()), 0.01f64..300.0);
    vec(one, 1..9).prop_map(|all| {
        all.into_iter()
            .map(|(substance, grams)| Line::known(substance, grams))
            .collect()
    })
}

fn wash() -> impl Strategy<Value = Wash> {
    (0.1f64..500.0, 20.0f64..5_000.0).prop_map(|(carried, fresh)| Wash {
        carried: Volume::from_millilitres(carried),
        fresh: Volume::from_millilitres(fresh),
    })
}

proptest! {
    #![proptest_config(tries(300))]

    /// The order of dissolving does not hang on the order of typing, and nothing is lost.
    #[test]
    fn known_substances_find_their_place(lines in lines(), turn in 0usize..9) {
        let mut turned = lines.clone();
        turned.rotate_left(turn % lines.len());
        let roles = |lines: Vec<Line>| Recipe::new(lines).lines().iter().map(Line::role).collect::<Vec<_>>();
        let (one, other) = (roles(lines.clone()), roles(turned));
        prop_assert!(one.is_sorted());
        prop_assert_eq!(one, other);
        let sum = |lines: &[Line]| lines.iter().map(|line| line.mass(Volume::from_millilitres(1000.0)).grams()).sum::<f64>();
        let all = sum(&lines);
        prop_assert!(close(sum(Recipe::new(lines).lines()), all, 1e-9 * all));
    }

    /// What is not known stays right behind what it was typed after, whatever else moves.
    #[test]
    fn unknown_substances_stay_where_they_are(lines in lines(), at in 0usize..9) {
        let at = at % lines.len();
        let mut typed = lines.clone();
        typed.insert(at + 1, Line::new(What::Unknown("x".to_owned()), Mass::from_grams(1.0)));
        let recipe = Recipe::new(typed);
        let place = recipe.lines().iter().position(|line| line.name() == "x").expect("it is there");
        prop_assert_eq!(&recipe.lines()[place - 1], &lines[at]);
    }

    /// In another form there is as much of the salt, and back again the same mass.
    #[test]
    fn forms_hold_the_same_salt(grams in 0.01f64..500.0, from in 0usize..31, to in 0usize..31) {
        let (from, to) = (Substance::ALL[from], Substance::ALL[to]);
        let there = Recipe::new(vec![Line::known(from, grams)]).in_forms(&[to]);
        let line = &there.lines()[0];
        let litre = Volume::from_millilitres(1000.0);
        let substance = line.substance().expect("known");
        if from.is_salt_of(&to) {
            prop_assert_eq!(substance, &to);
            let amounts = [substance.amount(line.mass(litre)), from.amount(Mass::from_grams(grams))].map(|amount| amount.millimoles());
            prop_assert!(close(amounts[0], amounts[1], 1e-9 * amounts[1]));
        } else {
            prop_assert_eq!(substance, &from);
        }
        let back = there.in_forms(&[from]);
        prop_assert!(close(back.lines()[0].mass(litre).grams(), grams, 1e-9 * grams));
    }

    /// The balance shows whole steps, near enough, and no portion is more than it takes.
    #[test]
    fn weights_are_what_the_balance_shows(grams in 0.001f64..20_000.0, step in 0.001f64..2.0, most in 20.0f64..2_000.0) {
        let gram = Mass::from_grams;
        let balance = Balance { name: "b".to_owned(), readability: gram(step), capacity: gram(most) };
        let Some(weight) = Weight::on(&balance, gram(grams)) else {
            prop_assert!(grams < step || grams > 19.9 * most);
            return Ok(());
        };
        let steps = weight.portion.grams() / step;
        prop_assert!(close(steps, steps.round(), 1e-6));
        let off = (weight.whole() - gram(grams)).grams().abs();
        prop_assert!(off <= f64::from(weight.portions) * step / 2.0 + 1e-9);
        prop_assert!(weight.uncertainty.grams() >= off);
        prop_assert!(weight.portion.grams() <= most + step / 2.0);
    }

    /// A solution is no stronger than dissolves, holds what is wanted, and is better than weighing alone.
    #[test]
    fn solutions_hold_what_is_wanted(grams in 0.001f64..5.0, dissolves in 0.1f64..10.0, room in 5.0f64..200.0, good_to in 0.01f64..0.1) {
        let kit = Kit::starter();
        let wanted = Mass::from_grams(grams);
        let room = Volume::from_millilitres(room);
        if let Some(solution) = kit.solution(wanted, dissolves, good_to, room) {
            let taken = solution.taken.volume();
            prop_assert!(solution.percent <= dissolves);
            prop_assert!(taken <= room && taken <= solution.made_up.volume());
            prop_assert!(close(taken.millilitres() * solution.percent / 100.0, grams, 1e-9));
            let in_it = solution.made_up.volume().millilitres() * solution.percent / 100.0;
            prop_assert!(close(solution.weight.whole().grams(), in_it, solution.weight.uncertainty.grams() + 1e-9));
            let alone = kit.weigh_out(wanted).map_or(f64::INFINITY, |weight| weight.uncertainty / wanted);
            prop_assert!(solution.relative_uncertainty <= good_to + 1e-9 || solution.relative_uncertainty < alone);
        }
    }

    /// Another balance never makes it worse.
    #[test]
    fn another_balance_does_no_harm(grams in 0.001f64..2_000.0, step in 0.001f64..2.0) {
        let mut kit = Kit::starter();
        let wanted = Mass::from_grams(grams);
        let before = kit.weigh_out(wanted).map_or(f64::INFINITY, |weight| weight.uncertainty.grams());
        let item = Balance { name: "b".to_owned(), readability: Mass::from_grams(step), capacity: Mass::from_grams(300.0) };
        kit.balances.push(Kept { id: "own".to_owned(), item });
        let after = kit.weigh_out(wanted).map_or(f64::INFINITY, |weight| weight.uncertainty.grams());
        prop_assert!(after <= before);
    }

    /// Changes add up, and the whole number of them is the first that is enough.
    #[test]
    fn changes_add_up(wash in wash(), a in 0.0f64..6.0, b in 0.0f64..6.0, one_in in 2.0f64..1e7) {
        let both = wash.after(a) * wash.after(b);
        prop_assert!(close(wash.after(a + b), both, 1e-9 * both));
        let wanted = 1.0 / one_in;
        let whole = wash.whole_changes(wanted);
        prop_assert!(wash.after(whole) <= wanted * (1.0 + 1e-6));
        prop_assert!(wash.after(whole - 1.0) > wanted * (1.0 - 1e-6));
        let running = wash.running(wash.contents(wanted));
        prop_assert!(running <= wanted * (1.0 + 1e-9));
    }

    /// The same water poured in more portions leaves less; more water and less carried over leave less.
    #[test]
    fn more_portions_leave_less(wash in wash(), parts in 2u32..9) {
        let one = wash.after(1.0);
        let parts = f64::from(parts);
        let parted = Wash { fresh: wash.fresh / parts, ..wash };
        prop_assert!(parted.after(parts) < one);
        // Running water is the limit of ever smaller portions of what is poured through.
        let content = wash.fresh / wash.carried;
        prop_assert!(parted.after(parts) >= (-content).exp() * (1.0 - 1e-9));
        let more = Wash { fresh: wash.fresh * 1.1, ..wash };
        let drained = Wash { carried: wash.carried * 0.9, ..wash };
        prop_assert!(more.share() < wash.share() && drained.share() < wash.share());
    }
}

/// What a sheet calls a substance is read as that substance.
#[test]
fn names_are_read_back() {
    for substance in Substance::ALL {
        let wanted = Written::Known {
            substance,
            usual_form: false,
        };
        assert_eq!(Substance::written(substance.name), Ok(wanted), "{}", substance.name);
        let shouted = Substance::written(&substance.name.to_uppercase());
        assert!(
            matches!(shouted, Ok(Written::Known { substance: read, .. }) if read == substance),
            "{}",
            substance.name
        );
    }
}
