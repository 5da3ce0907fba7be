#include "store/canonical_json.hpp"

#include <gtest/gtest.h>

namespace undercroft::store {
namespace {

// RFC 8785 section 3.2.3: the sample object and the order it prints.
TEST(CanonicalJson, SortsNamesByTheirUtf16UnitsAsInTheSampleOfRfc8785) {
    CanonicalObject object;
    object.add("\u20ac", "\"Euro Sign\"");
    object.add("\r", "\"Carriage Return\"");
    object.add("\ufb33", "\"Hebrew Letter Dalet With Dagesh\"");
    object.add("1", "\"One\"");
    object.add("\U0001f600", "\"Emoji: Grinning Face\"");
    object.add("\u0080", "\"Control\"");
    object.add("\u00f6", "\"Latin Small Letter O With Diaeresis\"");
    EXPECT_EQ(object.text(),
              "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\","
              "\"\u00f6\":\"Latin Small Letter O With Diaeresis\",\"\u20ac\":\"Euro Sign\","
              "\"\U0001f600\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}");
}

// RFC 8785 section 3.2.2: "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/".
TEST(CanonicalJson, EscapesTextAsInTheSampleOfRfc8785) {
    EXPECT_EQ(canonical_text("\u20ac$\u000f\nA'B\"\\\\\"/"), "\"\u20ac$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"");
}

TEST(CanonicalJson, EscapesOnlyWhatMustBe) {
    EXPECT_EQ(canonical_text("\b\f\n\r\t"), "\"\\b\\f\\n\\r\\t\"");
    EXPECT_EQ(canonical_text("\x7f"), "\"\x7f\"");
}

TEST(CanonicalJson, WritesListsAndNumbersWithoutSpace) {
    EXPECT_EQ(canonical_list({}), "[]");
    EXPECT_EQ(canonical_list({canonical_number(-3), canonical_number(k_largest_whole_number)}),
              "[-3,9007199254740991]");
}

// Each row of RFC 3629 section 4's grammar, at its edges.
TEST(CanonicalJson, KnowsValidUtf8FromInvalid) {
    for (const char* good : {"", "a", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                             "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        EXPECT_TRUE(is_utf8(good)) << good;
    for (const char* bad : {"\x80", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2\x41", "\xE0\x9F\xBF", "\xED\xA0\x80",
                            "\xE2\x82", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "a\xFF"})
        EXPECT_FALSE(is_utf8(bad)) << bad;
}

}  // namespace
}  // namespace undercroft::store
