#include "store/digest.hpp"

#include <gtest/gtest.h>

namespace undercroft::store {
namespace {

const std::string k_salt = "000102030405060708090a0b0c0d0e0f";

// Values printed by coreutils' `b2sum -l 256`, an implementation of its own.
TEST(Digest, IsBlake2bWith32BytesAsB2sumPrintsIt) {
    EXPECT_EQ(hex_of(blake2b_256({"abc"})), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
    EXPECT_EQ(hex_of(blake2b_256({})), "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
    EXPECT_EQ(hex_of(blake2b_256({"a", "", "bc"})), hex_of(blake2b_256({"abc"})));
}

// printf 'undercroft book 1\n{}' | b2sum -l 256, and so on: the tags are frozen.
TEST(Digest, LinksCoverTagLinkBeforeAndBytes) {
    EXPECT_EQ(hex_of(link_of_facts("{}")), "7012169abb55c2c6b6112619e0d01d2671c7a396306977ec58911fa3f354c3e2");
    EXPECT_EQ(hex_of(link_of_entry(link_of_facts("{}"), "{\"at_ms\":0}")),
              "35787e5f64d049f0fcf27200fa8a581917c6d3d3e149d7b8aa1d904add76e0eb");
}

TEST(Digest, ACommitmentCoversSaltAndName) {
    EXPECT_EQ(commitment_of(k_salt, "Inês"), "cc2bb93c80dce6a3c09da351b2a4433f2232d99b290ab0aa4ed7b07f0ab04c74");
    EXPECT_NE(commitment_of(k_salt, "Ines"), commitment_of(k_salt, "Inês"));
    EXPECT_NE(commitment_of(std::string(32, '0'), "Ines"), commitment_of(k_salt, "Ines"));
    EXPECT_TRUE(is_commitment(commitment_of(k_salt, "Ines")));
}

TEST(Digest, ASaltIsSixteenBytesInLowerCaseHex) {
    for (const char* bad : {"", "00", "000102030405060708090A0B0C0D0E0F", "000102030405060708090a0b0c0d0e0g",
                            "000102030405060708090a0b0c0d0e0f00"})
        EXPECT_EQ(commitment_of(bad, "Ines"), "") << bad;
}

}  // namespace
}  // namespace undercroft::store
