// Labels as others read them, and what is refused before it is printed.
#include "paper/labels.hpp"

#include <gtest/gtest.h>

#include <string>

#include "tests/unit/paper/read_back.hpp"

namespace undercroft::paper {
namespace {

using testing::in_one_line;
using testing::ReadBack;

app::LabelView amber(const std::string& name = "The Amber") {
    app::LabelView label;
    label.run = "AMB-3";
    label.book.invented = true;
    label.facts = {{"name", name},
                   {"run", "AMB-3"},
                   {"packaged", "2026-04-16"},
                   {"contents", "0.33 L"},
                   {"make-up", "60 % Winter amber (11 months), 40 % Harvest amber (21 months)"},
                   {"age", "2.5 years on average when packaged, from brew day; youngest part 11 months"},
                   {"alcohol", "6.2 % vol (± 0.5)"},
                   {"allergens", "cereals containing gluten (wheat, barley)"},
                   {"culture",
                    "Live culture inside. A killer wine yeast is among it: please do not pitch the dregs "
                    "into another beer."},
                   {"best", "from 2026-05-28 to about 2028-04"},
                   {"serving", "at 8 to 12 °C"},
                   {"caution", "Under pressure and alive: keep cool and upright, never in a hot car."}};
    label.strata = {{0.4, 1.75}, {0.6, 0.9}};
    return label;
}

LabelJob job(LabelShape shape, const std::string& grid, int count = 1) {
    LabelJob asked;
    asked.shape = shape;
    asked.grid = parse_grid(grid).value();
    asked.count = count;
    return asked;
}

std::size_t times(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++found;
    return found;
}

TEST(Labels, SayEverythingOnEveryGridThatHasRoom) {
    for (const char* grid : {"A4 2x4", "A4 2x7", "Letter 2x3", "Letter 2x5", "A4, 1 x 2, 150 x 100 mm"}) {
        const app::LabelView label = amber();
        const LabelSheet sheet = label_sheet(label, job(LabelShape::belly, grid), "2026-04-16").value();
        const std::string text = in_one_line(ReadBack(sheet.pdf).text());
        for (const auto& [name, value] : label.facts)
            EXPECT_NE(text.find(value), std::string::npos) << grid << " lacks its " << name << ": " << text;
        EXPECT_GE(sheet.points, 4.4) << grid;
    }
}

TEST(Labels, HoldACodeThatIsReadWithNoNetwork) {
    const LabelSheet sheet = label_sheet(amber(), job(LabelShape::belly, "A4 2x4", 3), "2026-04-16").value();
    const std::string read = ReadBack(sheet.pdf).codes();
    EXPECT_EQ(times(read, label_code(amber())), 3U) << read;
    EXPECT_EQ(read.substr(0, read.find('\n')), "AMB-3") << "the code stands first, for whoever looks it up";
    for (const char* essential : {"2026-04-16", "6.2 % vol", "wheat", "killer wine yeast"})
        EXPECT_NE(read.find(essential), std::string::npos) << essential;
}

// The marks of direction that a reader of PDFs puts round what runs from the right: U+200E, U+200F, U+202A to U+202E.
std::string without_marks(std::string text) {
    for (const char* mark : {"\u200e", "\u200f", "\u202a", "\u202b", "\u202c", "\u202d", "\u202e"})
        for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark)) text.erase(at, 3);
    return text;
}

TEST(Labels, AreShapedInAnyScript) {
    for (const char* name :
         {"Ο Κεχριμπαρένιος", "Янтарное пиво", "الكهرماني", "הענברי", "Ámbar de otoño ßñØ", "อำพัน"}) {
        const LabelSheet sheet = label_sheet(amber(name), job(LabelShape::belly, "A4 2x4"), "2026-04-16").value();
        const ReadBack paper(sheet.pdf);
        EXPECT_NE(paper.codes().find(name), std::string::npos) << name;
        EXPECT_NE(without_marks(paper.text()).find(name), std::string::npos) << name << "\n" << paper.text();
    }
}

// 8 by 8 pixels: red grows to the right, green downwards, blue is 36 times x xor y.
std::string small_picture() {
    constexpr std::string_view k_hex =
        "89504e470d0a1a0a0000000d49484452000000080000000808020000004b6d29dc000000874944415478da0dc83101405104"
        "05d01bc5f08218c51040081144104200318c8218fe3fe30100c26388c21c91a8c62ceeef4704265312a74a8aa65b1a8085d8"
        "98a1fc9c27f99a63b9003552617daa70bdd469add5003cc88b7dd4cf1de9af5dd60dc8a20cced31ccf97894edb14a087fab8"
        "43bbbc25dbbab1fd803ddae12dddf0b55ce97dbbf80094fb5781611b4d4f0000000049454e44ae426082";
    std::string png;
    for (std::size_t i = 0; i + 1 < k_hex.size(); i += 2)
        png += static_cast<char>(std::stoi(std::string(k_hex.substr(i, 2)), nullptr, 16));
    return png;
}

TEST(Labels, ShowAPictureOfOnesOwnAsItIs) {
    LabelJob asked = job(LabelShape::belly, "A4 2x4");
    asked.picture = small_picture();
    const std::string image = ReadBack(label_sheet(amber(), asked, "2026-04-16").value().pdf).picture();
    ASSERT_EQ(image.substr(0, 11), "P6\n8 8\n255\n");
    for (std::size_t y = 0; y < 8; ++y)
        for (std::size_t x = 0; x < 8; ++x) {
            const auto colour = [&](std::size_t c) {
                return static_cast<unsigned char>(image.at(11 + 3 * (8 * y + x) + c));
            };
            EXPECT_EQ(colour(0), x * 32);
            EXPECT_EQ(colour(1), y * 32);
            EXPECT_EQ(colour(2), (x ^ y) * 36);
        }
}

TEST(Labels, RunOverAsManySheetsAsTheyNeedAndBeginWhereASheetIsUsed) {
    LabelJob asked = job(LabelShape::belly, "A4 2x4", 11);
    asked.first_cell = 7;
    const LabelSheet sheet = label_sheet(amber(), asked, "2026-04-16").value();
    EXPECT_EQ(sheet.pages, 3) << "2 on the first, 8, and 1";
    const ReadBack paper(sheet.pdf);
    EXPECT_EQ(paper.pages(), 3);
    EXPECT_EQ(times(paper.text(), "The Amber"), 11U);
}

TEST(Labels, ForNeckAndCrownSayTheCode) {
    for (const LabelShape shape : {LabelShape::neck, LabelShape::crown}) {
        const char* grid = shape == LabelShape::neck ? "A4 5x13" : "A4, 6 x 9, 30 x 30 mm";
        const LabelSheet sheet = label_sheet(amber(), job(shape, grid, 12), "2026-04-16").value();
        const std::string text = ReadBack(sheet.pdf).text();
        EXPECT_EQ(times(text, "AMB-3"), 12U);
        EXPECT_EQ(times(text, "6.2 % vol"), 12U);
    }
}

TEST(Labels, AreTheSameBytesEveryTime) {
    const LabelJob asked = job(LabelShape::belly, "A4 2x4", 8);
    EXPECT_EQ(label_sheet(amber(), asked, "2026-04-16").value().pdf,
              label_sheet(amber(), asked, "2026-04-16").value().pdf);
}

TEST(Labels, ThatHaveNoRoomForWhatTheyMustSayAreRefused) {
    const auto small = label_sheet(amber(), job(LabelShape::belly, "A4 5x13"), "2026-04-16");
    ASSERT_FALSE(small);
    EXPECT_EQ(small.error().where, "grid");
    EXPECT_NE(small.error().what.find("A4 2x4"), std::string::npos) << "it names one that would do";
}

TEST(Labels, RefuseLettersThatCannotBePrinted) {
    const auto refused = [](const std::string& name) {
        const auto sheet = label_sheet(amber(name), job(LabelShape::belly, "A4 2x4"), "2026-04-16");
        return sheet ? std::string() : sheet.error().where;
    };
    EXPECT_EQ(refused("bell\a"), "name");
    EXPECT_EQ(refused("broken \xC3("), "name");
    EXPECT_EQ(refused("turned \xE2\x80\xAE round"), "name") << "U+202E makes a label read as another";
    EXPECT_EQ(refused("no such letter \xF3\xB0\x80\x80"), "text") << "U+F0000: a private letter that no font has";
    EXPECT_EQ(refused("plain"), "");
}

TEST(Labels, RefusePicturesThatWouldSwampTheMachine) {
    LabelJob asked = job(LabelShape::belly, "A4 2x4");
    const std::string header("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16);
    asked.picture = header + std::string("\0\1\0\0\0\1\0\0", 8) + std::string(40, '\0');  // 65,536 by 65,536 pixels
    EXPECT_NE(label_sheet(amber(), asked, "2026-04-16").error().what.find("65536 by 65536"), std::string::npos);
    asked.picture = header + std::string("\0\0\0\4\0\0\0\4", 8) + std::string(40, '\0');  // 4 by 4, and broken
    EXPECT_NE(label_sheet(amber(), asked, "2026-04-16").error().what.find("broken"), std::string::npos);
    asked.picture = "GIF89a";
    EXPECT_EQ(label_sheet(amber(), asked, "2026-04-16").error().where, "picture");
}

TEST(Labels, AreOneToTwoThousandAndOnTheSheet) {
    LabelJob asked = job(LabelShape::belly, "A4 2x4", 0);
    EXPECT_EQ(label_sheet(amber(), asked, "2026-04-16").error().where, "count");
    asked.count = k_most_labels + 1;
    EXPECT_EQ(label_sheet(amber(), asked, "2026-04-16").error().where, "count");
    asked.count = 1;
    asked.first_cell = 9;
    EXPECT_EQ(label_sheet(amber(), asked, "2026-04-16").error().where, "first");
}

TEST(Grids, LieOnTheirPaper) {
    for (const Grid& grid : known_grids()) {
        const int last = grid.cells() - 1;
        EXPECT_LE(grid.x_of(last) + grid.width, grid.page.width + 0.01) << grid.name;
        EXPECT_LE(grid.y_of(last) + grid.height, grid.page.height + 0.01) << grid.name;
        EXPECT_EQ(parse_grid(grid.name).value().name, grid.name);
    }
}

TEST(Grids, OfOnesOwnAreReadInMillimetresAndInches) {
    const Grid own = parse_grid("A4, 2 x 5, 95 x 55 mm, margin 8 x 10 mm, gap 2 x 1 mm").value();
    EXPECT_EQ(own.cells(), 10);
    EXPECT_DOUBLE_EQ(own.x_of(1), 8.0 + 95.0 + 2.0);
    EXPECT_DOUBLE_EQ(own.y_of(2), 10.0 + 55.0 + 1.0);
    EXPECT_DOUBLE_EQ(parse_grid("Letter, 2 x 5, 4 x 2 in").value().width, 101.6);
    EXPECT_NEAR(parse_grid("A4, 2 x 4, 90 x 60 mm").value().left, 15.0, 1e-9) << "centred";
    for (const char* wrong : {"A9", "A4, 2 x 5", "A4, 3 x 5, 95 x 55 mm", "A4, 2 x 5, 95 x 55", "A4, 0 x 5, 9 x 9 mm",
                              "A4, 2 x 5, 95 x 55 mm, margin 90 x 10 mm", "A4, 2 x 2, 3 x 3 mm", ""})
        EXPECT_EQ(parse_grid(wrong).error().where, "grid") << wrong;
}

}  // namespace
}  // namespace undercroft::paper
