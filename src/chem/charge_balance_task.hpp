// What the inner loops of the charge balance are handed: plain numbers and pointers, so that code built for another
// instruction set shares nothing with the rest of the program. For charge_balance.cpp and its kernels only.
#pragma once

namespace undercroft::chem {

inline constexpr double k_ln10 = 2.302585092994046;  // natural logarithm of ten

inline constexpr int k_most_protolytes_in_task = 18;
inline constexpr int k_guesses = 6;

struct BalanceModel {
    struct Steps {
        double k[3];  // acidity constants, mol/L
        int count;
        bool as_read;
    };
    // By rising number of protons, filled up with empty ones to a multiple of three.
    Steps steps[k_most_protolytes_in_task];
    int protolytes;
    double kw;
    double minus_a_ln10;  // 0: no activities
    double highest_ionic_strength;
    // Where the search begins: at fixed points of pH everything but the amounts is known beforehand.
    struct Guess {
        double activity_h;
        double inverse;
        double free_charge;                      // h - oh
        double mean[k_most_protolytes_in_task];  // protons each has given
    };
    Guess guesses[k_guesses];  // by rising pH, evenly
    double guess_step;         // of ln of the activity
};

struct BalanceTask {
    const BalanceModel* model;
    const double* totals[k_most_protolytes_in_task];  // in the model's order; null: none
    const double* strong_ions;
    const double* inert_salt;  // may be null
    const double* pk_shift;    // may be null
    double* ph;
    unsigned long count;
};

// One for every width; ph is NaN where no answer was found.
void solve_columns_by_one(const BalanceTask& task);
#if defined(__x86_64__)
void solve_columns_by_two(const BalanceTask& task);    // x86-64-v2
void solve_columns_by_four(const BalanceTask& task);   // x86-64-v3
void solve_columns_by_eight(const BalanceTask& task);  // x86-64-v4
#endif

}  // namespace undercroft::chem
