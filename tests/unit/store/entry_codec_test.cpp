#include "store/entry_codec.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "store/canonical_json.hpp"
#include "tests/unit/store/random_entries.hpp"

namespace undercroft::store {
namespace {

using namespace ledger;
using testing::random_entry;
using testing::same_entry;
using testing::sitting_key;

template <class B>
Entry entry_with(const B& body) {
    std::vector<Body> bodies(1);
    bodies.front() = body;
    return testing::sitting_of(sitting_key(1), std::move(bodies)).entries.front();
}

// An entry of kind B with one member set.
template <class B, class Set>
Entry entry_where(Set set) {
    B body;
    set(body);
    return entry_with(body);
}

Entry note(const std::string& words) {
    return entry_where<Note>([&](auto& it) { it.words = words; });
}

Entry loss(std::int64_t ul) {
    return entry_where<Loss>([&](auto& it) {
        it.volume = Volume::from_ul(ul);
        it.cause = LossCause::spill;
    });
}

Error refusal(const Entry& entry) {
    const auto text = encode(entry);
    return text ? Error{ErrorKind::storage, "nothing", *text, {}, {}} : text.error();
}

TEST(EntryCodec, AnyEntryComesBackFromItsBytes) {
    EXPECT_TRUE(rc::check([] {
        const Entry entry = *random_entry();
        const auto text = encode(entry);
        RC_ASSERT(text.has_value());
        const auto back = decode_entry(*text);
        RC_ASSERT(back.has_value());
        RC_ASSERT(same_entry(*back, entry));
    }));
}

TEST(EntryCodec, DifferentEntriesHaveDifferentBytes) {
    EXPECT_TRUE(rc::check([] {
        const Entry a = *random_entry();
        Entry b = a;
        b.body = *testing::random_body();
        RC_PRE(!(a.body == b.body));
        RC_ASSERT(encode(a).value() != encode(b).value());
    }));
}

TEST(EntryCodec, EveryKindWithEveryFieldFilledComesBack) {
    const auto entries = testing::full_entry_of_every_kind();
    ASSERT_EQ(entries.size(), std::variant_size_v<Body> - 1);
    for (const Entry& entry : entries) {
        const auto text = encode(entry);
        ASSERT_TRUE(text) << text.error().where << text.error().what;
        const auto back = decode_entry(*text);
        ASSERT_TRUE(back) << *text;
        EXPECT_TRUE(same_entry(*back, entry)) << *text;
        EXPECT_TRUE(is_known_kind(kind_word(entry.body)));
    }
}

// Frozen with format 1: when this fails, books already written no longer check.
TEST(EntryCodec, TheBytesOfAReadingAreFrozen) {
    Entry entry = entry_where<Reading>([](auto& it) {
        it.subject = EntryKey{sitting_key(7), 2};
        it.values = {{Quantity::gravity, Decimal{10080, 4}, "SG"}, {Quantity::ph, Decimal{34, 1}, "pH"}};
        it.read_at_c = Decimal{185, 1};
        it.sample = Volume::from_ul(200'000);
    });
    entry.recorded = Instant{2000};
    EXPECT_EQ(encode(entry).value(),
              "{\"at_ms\":1000,\"body\":{\"read_at_c\":\"18.5\",\"sample_ul\":200000,"
              "\"subject\":\"0190f3c8-0007-7000-8000-000000000007:000002\",\"values\":["
              "{\"quantity\":\"gravity\",\"unit\":\"SG\",\"value\":\"1.0080\"},"
              "{\"quantity\":\"ph\",\"unit\":\"pH\",\"value\":\"3.4\"}]},\"format\":1,"
              "\"key\":\"0190f3c8-0001-7000-8000-000000000001:000000\",\"kind\":\"reading\","
              "\"path\":\"0190f3c8-0001-7000-8000-000000000001:000000\",\"recorded_ms\":2000,\"sitting_size\":1}");
}

TEST(EntryCodec, WhatIsEmptyIsLeftOut) {
    Entry entry = note("");
    EXPECT_EQ(encode(entry).value(),
              "{\"at_ms\":1000,\"body\":{},\"format\":1,\"key\":\"0190f3c8-0001-7000-8000-000000000001:000000\","
              "\"kind\":\"note\",\"path\":\"0190f3c8-0001-7000-8000-000000000001:000000\",\"recorded_ms\":0,"
              "\"sitting_size\":1}");
}

TEST(EntryCodec, BytesThatEncodingWouldNotWriteAreRefused) {
    const std::string good = encode(loss(5)).value();
    ASSERT_TRUE(decode_entry(good));
    const auto changed = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        const auto at = text.find(from);
        EXPECT_NE(at, std::string::npos) << from;
        return text.replace(at, from.size(), to);
    };
    for (const std::string& bad : {
             changed("{", "{ "),                                            // white space
             changed("\"volume_ul\":5", "\"volume_ul\":5.0"),               // another spelling of a number
             changed("\"volume_ul\":5", "\"volume_ul\":\"5\""),             // text for a number
             changed("\"volume_ul\":5", "\"volume_ul\":5,\"zest\":1"),      // a field format 1 does not have
             changed("\"volume_ul\":5", "\"volume_ul\":9007199254740993"),  // beyond 2^53
             changed("\"volume_ul\":5", "\"volume_ul\":0"),                 // an amount that is left out when 0
             changed("\"cause\":\"spill\"", "\"cause\":\"gone\""),          // a word format 1 does not have
             changed("\"cause\":\"spill\",", ""),                           // a word that must be there
             changed("\"sitting_size\":1", "\"sitting_size\":0"),           // index outside the sitting
             changed("\"at_ms\":1000,", ""),                                // an instant that must be there
             changed(":000000\",\"kind\"", ":00000x\",\"kind\""),           // no key
             changed("\"body\":{", "\"body\":{\"volume_ul\":5,"),           // a name twice
             good.substr(0, good.size() - 1),
             std::string(),
             std::string("[]"),
             std::string("null"),
         })
        EXPECT_FALSE(decode_entry(bad)) << bad;
}

TEST(EntryCodec, ANewerKindIsKeptByteForByte) {
    const std::string text =
        "{\"at_ms\":1000,\"body\":{\"strength\":\"3.5\"},\"format\":1,"
        "\"key\":\"0190f3c8-0001-7000-8000-000000000001:000000\",\"kind\":\"serenade\","
        "\"path\":\"0190f3c8-0001-7000-8000-000000000001:000000\",\"recorded_ms\":7,\"sitting_size\":1}";
    const auto entry = decode_entry(text);
    ASSERT_TRUE(entry) << entry.error().what;
    EXPECT_EQ(entry->body, Body(Unknown{"serenade", text}));
    EXPECT_EQ(entry->key, (EntryKey{sitting_key(1), 0}));
    EXPECT_EQ(entry->place.at, Instant{1000});
    EXPECT_EQ(entry->recorded, Instant{7});
    EXPECT_EQ(encode(*entry).value(), text);
    EXPECT_FALSE(is_known_kind("serenade"));
}

TEST(EntryCodec, AKnownKindInANewerFormatIsUnknownToo) {
    std::string text = encode(note("hay")).value();
    text.replace(text.find("\"format\":1"), 10, "\"format\":5");
    const auto entry = decode_entry(text);
    ASSERT_TRUE(entry);
    EXPECT_EQ(entry->body, Body(Unknown{"note", text}));
    EXPECT_EQ(format_of(text), 5);
    // Without a picture a note is of format 1, and has one text only.
    text.replace(text.find("\"format\":5"), 10, "\"format\":2");
    EXPECT_FALSE(decode_entry(text));
}

TEST(EntryCodec, TextThatIsNotUtf8IsRefusedByField) {
    const Error error = refusal(note("caf\xE9"));
    EXPECT_EQ(error.kind, ErrorKind::bad_input);
    EXPECT_EQ(error.where, "words");
}

TEST(EntryCodec, ANulInATextIsRefused) {
    EXPECT_EQ(refusal(entry_where<VesselJoins>([](auto& it) { it.name = std::string("a\0b", 3); })).where, "name");
    EXPECT_EQ(refusal(entry_where<Tasting>([](auto& it) {
                  it.scores = {{std::string("\0", 1), Decimal{}}};
              })).where,
              "scores");
    EXPECT_EQ(refusal(entry_where<Tasting>([](auto& it) { it.faults = {std::string("\0", 1)}; })).where, "faults");
}

TEST(EntryCodec, ATextOf64KibibytesIsTakenAndOneByteMoreIsNot) {
    EXPECT_TRUE(encode(note(std::string(65'536, 'a'))));
    EXPECT_EQ(refusal(note(std::string(65'537, 'a'))).where, "words");
}

TEST(EntryCodec, NumbersThatNotEveryJsonReaderAgreesOnAreRefused) {
    EXPECT_TRUE(encode(loss(k_largest_whole_number)));
    EXPECT_EQ(refusal(loss(k_largest_whole_number + 1)).where, "volume_ul");
    EXPECT_EQ(refusal(loss(-k_largest_whole_number - 1)).where, "volume_ul");
    Entry late = entry_with(Void{});
    late.recorded = Instant{k_largest_whole_number + 1};
    EXPECT_EQ(refusal(late).where, "recorded_ms");
}

TEST(EntryCodec, ADecimalOfMoreThanFifteenDigitsIsRefused) {
    EXPECT_EQ(refusal(entry_where<LotEnters>([](auto& it) {
                  it.ibu = Decimal{1'000'000'000'000'000, 2};
              })).where,
              "ibu");
}

TEST(EntryCodec, ADayOutsideTheCalendarIsRefused) {
    using namespace std::chrono;
    EXPECT_EQ(refusal(entry_where<LotEnters>([](auto& it) {
                  it.brewed_to = Day{year{2023}, month{2}, day{30}};
              })).where,
              "brewed_to");
    EXPECT_EQ(refusal(entry_where<LotEnters>([](auto& it) {
                  it.brewed_from = Day{year{12023}, month{2}, day{3}};
              })).where,
              "brewed_from");
}

TEST(EntryCodec, KeysThatAreNoUuidOfVersion7AreRefused) {
    for (const char* sitting :
         {"", "s1", "0190F3C8-0001-7000-8000-000000000001", "0190f3c8-0001-4000-8000-000000000001",
          "0190f3c8-0001-7000-c000-000000000001", "0190f3c8-0001-7000-8000-00000000000g"}) {
        Entry entry = entry_with(Void{});
        entry.key.sitting = sitting;
        entry.place.path = entry.key.text();
        EXPECT_EQ(refusal(entry).where, "key") << sitting;
    }
    EXPECT_EQ(refusal(entry_where<Lift>([](auto& it) {
                  it.addition = EntryKey{sitting_key(1), 1'000'000};
              })).where,
              "addition");
    EXPECT_EQ(refusal(entry_where<Lift>([](auto& it) {
                  it.addition = EntryKey{sitting_key(1), -1};
              })).where,
              "addition");
    Entry entry = entry_with(Void{});
    entry.supersedes = EntryKey{};
    EXPECT_EQ(refusal(entry).where, "key");
}

TEST(EntryCodec, APlaceIsMadeOfKeys) {
    Entry entry = entry_with(Void{});
    const std::string own = entry.key.text();
    const std::string other = EntryKey{sitting_key(2), 0}.text();
    for (const std::string& good : {own, other, other + "/" + own, other + "/" + own + "/" + own}) {
        entry.place.path = good;
        EXPECT_TRUE(encode(entry)) << good;
    }
    for (const std::string& bad : {std::string(), "x" + own, own + "/", "/" + own, other + "//" + own, own + "~"}) {
        entry.place.path = bad;
        EXPECT_EQ(refusal(entry).where, "path") << bad;
    }
}

TEST(EntryCodec, ANameCannotSlipInWhereACommitmentBelongs) {
    Entry entry = entry_with(Void{});
    entry.by = "Ines";
    EXPECT_EQ(refusal(entry).where, "by");
    EXPECT_EQ(refusal(entry_where<Tasting>([](auto& it) { it.taster = "Ines"; })).where, "taster");
    EXPECT_EQ(refusal(entry_where<Take>([](auto& it) { it.person = std::string(64, 'A'); })).where, "person");
}

TEST(EntryCodec, AnOriginIsABookAndAHashOrNothing) {
    Entry entry = loss(5);
    const std::string book = testing::facts().id;
    const std::string hash(64, 'a');
    for (const auto& [from, what] : {std::pair{book, std::string{}}, std::pair{std::string{}, hash},
                                     std::pair{sitting_key(1), hash}, std::pair{book, hash + "a"}}) {
        entry.origin_book = from;
        entry.origin_hash = what;
        EXPECT_FALSE(encode(entry)) << from << " " << what;
    }
    entry.origin_book = book;
    entry.origin_hash = hash;
    const std::string text = encode(entry).value();
    EXPECT_NE(text.find("\"origin_book\":\"" + book + "\",\"origin_hash\":\"" + hash + "\""), std::string::npos);
    EXPECT_TRUE(testing::same_entry(decode_entry(text).value(), entry));
}

TEST(EntryCodec, TheFactsOfABookComeBack) {
    const BookFacts facts = testing::facts();
    const std::string text = encode(facts).value();
    EXPECT_EQ(text,
              "{\"begun_ms\":1700000000000,\"format\":1,\"gallons\":\"us\","
              "\"id\":\"6f1c1d0e-3b52-4c1a-9d55-0a1b2c3d4e5f\",\"invented\":true,\"name\":\"Kiln Lane\","
              "\"zone\":\"Europe/Lisbon\"}");
    EXPECT_EQ(decode_facts(text).value(), facts);
    EXPECT_FALSE(decode_facts("{}"));
    EXPECT_FALSE(decode_facts("not json"));
}

TEST(EntryCodec, OfANewerBooksFactsTheKnownPartIsRead) {
    const auto facts = decode_facts(
        "{\"altitude_m\":12,\"begun_ms\":1700000000000,\"format\":2,\"gallons\":\"us\","
        "\"id\":\"6f1c1d0e-3b52-4c1a-9d55-0a1b2c3d4e5f\",\"name\":\"Kiln Lane\",\"zone\":\"Europe/Lisbon\"}");
    ASSERT_TRUE(facts);
    EXPECT_EQ(facts->format, 2);
    EXPECT_EQ(facts->name, "Kiln Lane");
}

}  // namespace
}  // namespace undercroft::store
