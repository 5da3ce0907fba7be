#include "base/base64.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace undercroft {
namespace {

// RFC 4648, section 10, test vectors.
TEST(Base64, WritesAndReadsTheVectorsOfTheStandard) {
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) {
        EXPECT_EQ(base64_of(bytes), text);
        EXPECT_EQ(bytes_of_base64(text), bytes);
    }
}

TEST(Base64, TakesOneSpellingOnly) {
    for (const char* text : {"Zg", "Zg=", "Zg==\n", " Zg==", "Zh==", "Zm9v=", "Zm9-", "Z", "====", "Zg==Zg=="})
        EXPECT_EQ(bytes_of_base64(text), std::nullopt) << text;
}

RC_GTEST_PROP(Base64, ReadsBackWhatItWrote, (const std::string& bytes)) {
    RC_ASSERT(bytes_of_base64(base64_of(bytes)) == std::optional(bytes));
}

}  // namespace
}  // namespace undercroft
