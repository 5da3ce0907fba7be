// The mean age of what is drawn from many equal stages begun with new beer, one turn a year: a table for which two
// routes are held to account, the book's replay and the recursion without a book. Worked out by hand in the notes on
// ages of this project, no other source.
#pragma once

namespace undercroft::testing {

struct ManyStages {
    int stages, one_in;
    double after[5];  // of k_many_stages_years, to three places
    double limit;
};

inline constexpr int k_many_stages_years[] = {5, 10, 20, 30, 50};
inline constexpr ManyStages k_many_stages[] = {
    {4, 2, {4.938, 7.523, 7.997, 8.000, 8.000}, 8},      {4, 4, {4.996, 9.593, 14.624, 15.799, 15.998}, 16},
    {4, 10, {5.000, 9.982, 19.427, 27.151, 35.990}, 40}, {6, 2, {5.000, 9.523, 11.944, 12.000, 12.000}, 12},
    {6, 4, {5.000, 9.984, 18.496, 22.597, 23.961}, 24},  {8, 4, {5.000, 10.000, 19.760, 27.148, 31.702}, 32},
    {8, 10, {5.000, 10.000, 19.999, 29.974, 49.036}, 80}};

}  // namespace undercroft::testing
