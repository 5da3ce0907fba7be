// How the tests of this folder look at a refusal: bad input, the field named, and what the sentence says.
#pragma once

#include <gtest/gtest.h>

#include <initializer_list>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace undercroft {

template <class T>
void expect_refused(const Result<T>& result, std::string_view field, std::initializer_list<std::string_view> says) {
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().kind, ErrorKind::bad_input);
    EXPECT_EQ(result.error().where, field);
    for (const std::string_view part : says)
        EXPECT_NE(result.error().what.find(part), std::string::npos)
            << "no \"" << part << "\" in " << result.error().what;
}

}  // namespace undercroft
