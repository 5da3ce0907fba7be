// Tasting tests without a book.
#include <algorithm>
#include <sstream>

#include "app/calc_read.hpp"
#include "base/letters.hpp"
#include "engine/taste/counting.hpp"
#include "engine/taste/ranking.hpp"

namespace undercroft::app {
namespace {

namespace taste = engine::taste;

constexpr const char* k_kinds = "triangle, duo-trio, paired or ranking";

struct Kind {
    const char* word;
    taste::CountingTest test;
    const char* source;
};
constexpr Kind k_counting[] = {{"triangle", taste::CountingTest::triangle, "ISO 4120, exact binomial"},
                               {"duo-trio", taste::CountingTest::duo_trio, "ISO 10399, exact binomial"},
                               {"paired", taste::CountingTest::paired, "ISO 5495, exact binomial"}};

Result<int> whole(const CalcRequest& request, const char* option, const char* example) {
    if (!request.has(option)) return calc::wants(option, example);
    return parse_count(option, request.one(option), 0, taste::k_most_answers);
}

std::string p_text(double p) {
    return p < 0.001 ? "below 0.001" : number_text(p, 3);
}

void add_habits(CalcView& view) {
    view.left_out.push_back("that one palate is blind to what another notices: see who was right, not only how many");
    view.cautions.push_back(
        {"tasting.blind",
         "Serve blind, in codes of three digits and an order that is another for everybody; water and "
         "a minute between sour samples. Whoever knows what is in the glass does not count."});
    view.cautions.push_back({"tasting.spit", "Many samples are much alcohol: spit, and let nobody drive on a panel."});
}

Result<CalcView> counting(const CalcRequest& request, const Kind& kind) {
    taste::CountingQuestion q;
    q.test = kind.test;
    const bool paired = kind.test == taste::CountingTest::paired;
    TRY(q.answers, whole(request, "--tasters", "24"));
    TRY(q.right, whole(request, paired ? "--preferred" : "--correct", "15"));
    TRY(q.alpha, calc::share(request, "--alpha", 0.05));
    TRY(q.discriminators, calc::share(request, "--noticing", 0.3));
    if (request.has("--two-sided")) q.sides = taste::Sides::two;
    TRY(const taste::CountingAnswer answer, taste::counting_test(q));
    CalcView view;
    const std::string told = std::string(kind.word) + " test: " + std::to_string(q.right) + " of " +
                             std::to_string(q.answers) + (paired ? " for one" : " right") + ", ";
    switch (answer.verdict) {
        case taste::CountingVerdict::different:
            view.about = told + (q.sides == taste::Sides::two ? "one is preferred" : "they differ") + " (p " +
                         p_text(answer.p) + ")";
            break;
        case taste::CountingVerdict::not_shown:
            view.about = told + "no difference is shown (p " + p_text(answer.p) + ")";
            view.cautions.push_back(
                {"tasting.not_equal",
                 "Not shown is not the same as none: see how large a difference could have been missed."});
            break;
        case taste::CountingVerdict::too_few:
            view.about = told + "no verdict: fewer than six answers prove nothing";
            break;
    }
    view.asked.push_back({"chance of a false difference", 100.0 * q.alpha, "%", "that is accepted", ""});
    view.terms.push_back({"p", answer.p, "", "chance of so many, or more, by guessing", kind.source});
    if (answer.needed)
        view.terms.push_back({"needed", static_cast<double>(*answer.needed), "answers",
                              "of " + std::to_string(q.answers) + " for a verdict", kind.source});
    else
        view.terms.push_back({"needed", 0.0, "answers", "not even all of them would be enough", kind.source});
    if (answer.noticed)
        view.terms.push_back({"noticed by", 100.0 * *answer.noticed, "%",
                              number_text(100.0 * *answer.noticed_low, 0) + " to " +
                                  number_text(100.0 * *answer.noticed_high, 0) + " % with 90 of 100, beyond guessing",
                              "Clopper & Pearson 1934"});
    view.terms.push_back({"power", 100.0 * answer.power, "%",
                          "chance to show it where " + number_text(100.0 * q.discriminators, 0) + " % notice",
                          kind.source});
    if (answer.answers_for_80)
        view.terms.push_back({"enough", static_cast<double>(*answer.answers_for_80), "answers",
                              "would show that 80 times of 100", kind.source});
    view.ranges = {"6 to 10,000 answers for a verdict"};
    add_habits(view);
    return view;
}

// "Ines: A 1, B 3, C 2"
Result<taste::Ranking> ranking_of(const std::string& text) {
    const auto colon = text.find(':');
    const auto no = [&text] {
        return fail(ErrorKind::bad_input, "--ranks",
                    "\"" + text.substr(0, 60) + "\" is no order; say who and every place: \"Ines: A 1, B 3, C 2\".");
    };
    if (colon == std::string::npos) return no();
    taste::Ranking ranking;
    ranking.taster = trimmed(text.substr(0, colon));
    if (ranking.taster.empty()) return no();
    std::istringstream parts(text.substr(colon + 1));
    for (std::string part; std::getline(parts, part, ',');) {
        const std::string one = trimmed(part);
        const auto blank = one.find_last_of(' ');
        if (blank == std::string::npos) return no();
        TRY(const Decimal place, parse_number("--ranks", one.substr(blank + 1), 1.0, 1000.0));
        ranking.places.emplace_back(trimmed(one.substr(0, blank)), place.value());
    }
    if (ranking.places.empty()) return no();
    return ranking;
}

Result<CalcView> ranking(const CalcRequest& request) {
    const std::vector<std::string> texts = request.all("--ranks");
    if (texts.empty()) return calc::wants("--ranks", "\"Ines: A 1, B 3, C 2\" --ranks \"Marit: A 2, B 3, C 1\"");
    std::vector<taste::Ranking> rankings;
    for (const std::string& text : texts) {
        TRY(taste::Ranking one, ranking_of(text));
        rankings.push_back(std::move(one));
    }
    TRY(const double alpha, calc::share(request, "--alpha", 0.05));
    TRY(const taste::RankingAnswer answer, taste::ranking_test(rankings, alpha));
    constexpr const char* k_source = "ISO 8587, Friedman 1937";
    CalcView view;
    const std::string told = "ranking by " + std::to_string(rankings.size()) + " tasters: ";
    view.about = !answer.verdict    ? told + "no verdict: fewer than three tasters prove nothing"
                 : answer.different ? told + "they differ (p " + p_text(answer.p) + ")"
                                    : told + "no difference is shown (p " + p_text(answer.p) + ")";
    for (const auto& [sample, sum] : answer.sums) view.terms.push_back({sample, sum, "rank sum", "smallest first", ""});
    view.terms.push_back({"statistic", answer.statistic, "", "Friedman's, corrected for ties", k_source});
    view.terms.push_back({"p", answer.p, "", "by the chi-square distribution", k_source});
    view.terms.push_back({"least difference", answer.least_difference, "rank sum", "of two that differ", k_source});
    view.terms.push_back({"agreement", answer.agreement, "", "Kendall's W: 0 none, 1 all alike", "Kendall 1939"});
    for (const auto& [one, other] : answer.apart) {
        const auto sum_of = [&](const std::string& sample) {
            return std::find_if(answer.sums.begin(), answer.sums.end(),
                                [&](const auto& sum) { return sum.first == sample; })
                ->second;
        };
        view.terms.push_back(
            {one + " and " + other, sum_of(other) - sum_of(one), "rank sum", "these two differ", k_source});
    }
    view.ranges = {"3 tasters or more for a verdict, every one of whom ranks all samples"};
    add_habits(view);
    return view;
}

}  // namespace

Result<CalcView> calc_tasting_test(const CalcRequest& request) {
    if (request.words.empty())
        return fail(ErrorKind::bad_input, "kind", std::string("Which tasting test? Say ") + k_kinds + ".");
    const std::string word = lower(request.words.front());
    for (const Kind& kind : k_counting)
        if (word == kind.word) return counting(request, kind);
    if (word == "ranking") return ranking(request);
    return fail(ErrorKind::bad_input, "kind",
                "\"" + request.words.front().substr(0, 40) + "\" is no tasting test here; say " + k_kinds + ".");
}

}  // namespace undercroft::app
