// The quick way to read an entry reads what the thorough way reads, and nothing that the thorough way refuses.
#include "store/entry_reader.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <sstream>

#include "store/entry_codec.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using ledger::Entry;

TEST(EntryReader, ReadsEveryKindWithEveryFieldAsTheThoroughWayDoes) {
    for (const Entry& entry : testing::full_entry_of_every_kind()) {
        const std::string text = encode(entry).value();
        const auto quick = read_canonical(text);
        ASSERT_TRUE(quick) << text;
        const auto thorough = decode_thoroughly(text);
        ASSERT_TRUE(thorough) << text;
        EXPECT_TRUE(testing::same_entry(*quick, *thorough)) << text;
    }
}

TEST(EntryReader, ReadsAnyEntryAsTheThoroughWayDoesUnlessItHoldsAnEscape) {
    EXPECT_TRUE(rc::check([] {
        const std::string text = encode(*testing::random_entry()).value();
        const auto quick = read_canonical(text);
        const bool escapes = text.find('\\') != std::string::npos;
        RC_CLASSIFY(escapes);
        RC_ASSERT(quick.has_value() != escapes);
        if (quick) RC_ASSERT(testing::same_entry(*quick, decode_thoroughly(text).value()));
    }));
}

// One or two places changed, left out or put in: most of it is damage, some of it is another entry.
std::string damaged(std::string text) {
    const std::string bytes = "{}[]\":,-.0123456789truefalsn\\ aZ\x01\xc3\x7f";
    for (int changes = *rc::gen::inRange(1, 3); changes > 0 && !text.empty(); --changes) {
        const auto spot = *rc::gen::inRange<std::size_t>(0, text.size());
        const char byte = *rc::gen::elementOf(bytes);
        switch (*rc::gen::inRange(0, 8)) {
            case 0:
                text[spot] = byte;
                break;
            case 1:
                text.erase(spot, *rc::gen::inRange<std::size_t>(1, 12));
                break;
            case 2:
                text.insert(spot, 1, byte);
                break;
            case 3:
                text.insert(spot, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()), 12));
                break;
            default:
                if (text[spot] >= '0' && text[spot] <= '9') text[spot] = static_cast<char>('0' + spot % 10);
                break;
        }
    }
    return text;
}

TEST(EntryReader, ReadsNothingThatTheThoroughWayRefuses) {
    int read = 0;
    rc::detail::TestParams params;
    params.seed = 20'260'314;
    params.maxSuccess = 20'000;
    const auto property = [&read] {
        const std::string text = damaged(encode(*testing::random_entry()).value());
        const auto quick = read_canonical(text);
        if (!quick) return;
        ++read;
        const auto thorough = decode_thoroughly(text);
        RC_ASSERT(thorough.has_value());
        RC_ASSERT(testing::same_entry(*quick, *thorough));
        RC_ASSERT(encode(*quick).value() == text);
    };
    const auto result = rc::detail::checkTestable(property, rc::detail::TestMetadata{}, params);
    std::ostringstream told;
    rc::detail::printResultMessage(result, told);
    EXPECT_TRUE(result.is<rc::detail::SuccessResult>()) << told.str();
    EXPECT_GT(read, 100) << "damage that is another entry was hardly met";
}

}  // namespace
}  // namespace undercroft::store
