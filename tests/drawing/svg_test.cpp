#include "paper.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>

#include "drawn.hpp"
#include "shapes.hpp"
#include "style.hpp"

namespace ligament {
namespace {

using testing::holds;
using testing::Judged;

/// What Python's expat parser and our list of forbidden things say about a document: nothing when it is in order.
std::string faults_of(const std::string& svg) {
    const std::filesystem::path file =
        std::filesystem::temp_directory_path() / ("ligament-drawing-" + std::to_string(getpid()) + ".svg");
    std::ofstream(file, std::ios::binary) << svg;
    const std::string call = "python3 '" LIGAMENT_SOURCE_DIR "/tests/drawing/check_svg.py' '" + file.string() + "' 2>&1";
    std::string said;
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> python(popen(call.c_str(), "r"), pclose);
    for (int c = std::fgetc(python.get()); c != EOF; c = std::fgetc(python.get())) said += static_cast<char>(c);
    std::filesystem::remove(file);
    return said;
}

/// Documents in a row as parts of one.
std::string without_declarations(std::string documents) {
    const std::string declaration = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
    for (std::size_t at = documents.find(declaration); at != documents.npos; at = documents.find(declaration, at))
        documents.erase(at, declaration.size());
    return documents;
}

TEST(Svg, TheCheckerItselfSeesFaults) {
    EXPECT_NE(faults_of("<svg xmlns='http://www.w3.org/2000/svg'><g></svg>"), "");
    EXPECT_NE(faults_of("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"), "");
    EXPECT_NE(faults_of("<svg xmlns='http://www.w3.org/2000/svg'><image href='http://a/b'/></svg>"), "");
    EXPECT_NE(faults_of("<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>"), "");
    EXPECT_NE(faults_of("<svg xmlns='http://www.w3.org/2000/svg'><text x='1' y='1'>no length</text></svg>"), "");
}

TEST(Svg, HostileNamesAreHarmless) {
    Rig rig = testing::rig_of_legs(2, 2);
    rig.name = "]]></style><script>alert(1)</script>\x01";
    const std::string names[] = {"</title><script>alert(1)</script>",
                                 "\" onload=\"alert(1)",
                                 "a&b<c>'d'\"e\"",
                                 std::string("nul\0l", 5),
                                 "\x1b[31mred",
                                 "line\nbreak\ttab",
                                 "\u202eevil\u2066",
                                 "\u05db\u05e0\u05e3 \u05e9\u05de\u05d0\u05dc",
                                 "\u0645\u0641\u0635\u0644_l",
                                 "\u9dfa\u7ffc",
                                 "\U0001F426 bird",
                                 "broken \xff\xfe utf-8 \xe2\x82",
                                 "{}.a{fill:url(http://a/b)}",
                                 std::string(1000, '&')};
    for (std::size_t i = 0; i < std::size(names); ++i) {
        rig.bones[i].name = names[i];
        rig.bones[i].group = names[i];
    }
    rig.properties[0].name = names[0];
    rig.objects[0].name = names[1];
    const Judged judged(rig);
    for (bool embedded : {false, true}) {
        DrawingOptions options;
        options.embedded = embedded;
        std::vector<View> views;
        for (const ViewEntry& entry : all_views()) views.push_back(entry.view);
        const Drawing drawing = draw_views(judged.rig, judged.dependencies, judged.facts, views, options);
        EXPECT_EQ(drawing.error, "");
        std::string all;
        for (const DrawnPage& page : drawing.pages) {
            all += page.svg;
            EXPECT_TRUE(std::regex_match(page.name, std::regex("[A-Za-z0-9_-]{1,80}"))) << page.name;
        }
        EXPECT_EQ(faults_of("<svg xmlns='http://www.w3.org/2000/svg'>" + without_declarations(all) + "</svg>"), "");
        EXPECT_FALSE(holds(all, "<script"));
        EXPECT_TRUE(holds(all, "&lt;script&gt;"));
        EXPECT_TRUE(holds(all, "\u9dfa\u7ffc"));
        EXPECT_TRUE(holds(all, "\u2068\u0645\u0641\u0635\u0644_l\u2069"));  // isolated in the hover title
    }
}

TEST(Svg, LongNamesAreWholeInTheHoverTitle) {
    const std::string name = "tarsus_" + std::string(80, 'x') + "_l";
    const std::string svg = Judged("{'name': '" + name + "'}").bones();
    EXPECT_TRUE(holds(svg, "<title>" + name + "\n"));
    EXPECT_TRUE(holds(svg, "\u2026"));
}

TEST(Svg, HoverTitlesTellPlaceAndMaker) {
    const std::string svg = Judged(
                                "{'name': 'a', 'roles': ['control']},\n{'name': 'b', 'group': 'wing', 'roles': "
                                "['deform'],\n'constraints': [{'name': 'seat', "
                                "'kind': 'transform', 'from': 'a'}]}")
                                .bones();
    EXPECT_TRUE(
        std::regex_search(svg, std::regex("<title>b\ndeform bone, line 2:1\ngroup wing\nattached, reached by 1 control\nseat "
                                          "\\(transform\\), line 3:17</title>")))
        << svg;
    EXPECT_TRUE(holds(svg, "<title>a -&gt; b\nconstraint\nmade by b/seat (transform), line 3:17</title>")) << svg;
    EXPECT_TRUE(holds(svg, "role=\"graphics-document document\" aria-label=\"group wing \u00b7 tiny\">"));
}

TEST(Svg, TheLegendExplainsWhatOccursOnly) {
    const std::string plain = Judged("{'name': 'a'}, {'name': 'b', 'parent': 'a'}").bones();
    EXPECT_TRUE(holds(plain, ">mechanism bone<"));
    EXPECT_TRUE(holds(plain, ">parent link<"));
    for (const char* absent : {">control bone<", ">constraint<", ">driver<", "in a cycle", "hatched", ">solver<", "faint"})
        EXPECT_FALSE(holds(plain, absent)) << absent;
    const std::string inert =
        Judged("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'aim', 'from': 'a', 'enabled': false}]}").bones();
    EXPECT_TRUE(holds(inert, "faint, (off)"));
    EXPECT_TRUE(holds(inert, ">aim (off)<"));
}

TEST(Svg, NumbersHaveOneForm) {
    EXPECT_EQ(svg_number(1), "1");
    EXPECT_EQ(svg_number(-0.01), "0");
    EXPECT_EQ(svg_number(12.34), "12.3");
    EXPECT_EQ(svg_number(-7.25), "-7.3");
    EXPECT_EQ(svg_number(123456), "123456");
}

// Relative luminance and contrast ratio as WCAG 2.2 defines them.
double luminance(std::string_view colour) {
    auto channel = [&](std::size_t at) {
        const double v = static_cast<double>(std::stoi(std::string(colour.substr(at, 2)), nullptr, 16)) / 255;
        return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

double contrast(std::string_view one, std::string_view other) {
    const double a = luminance(one), b = luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

TEST(Svg, ContrastAsWcagWantsIt) {
    EXPECT_NEAR(contrast("#000000", "#ffffff"), 21, 1e-9);    // WCAG 2.2, definition of contrast ratio
    EXPECT_NEAR(contrast("#767676", "#ffffff"), 4.54, 0.01);  // the often quoted lightest grey of level AA on white (from memory)
    for (const Scheme& scheme : {light_scheme, dark_scheme}) {
        for (std::string_view ground :
             {scheme.paper, scheme.group_fill}) {  // success criterion 1.4.3 for text, 1.4.11 for the rest
            EXPECT_GE(contrast(scheme.ink, ground), 4.5);
            EXPECT_GE(contrast(scheme.quiet, ground), 4.5);
            EXPECT_GE(contrast(scheme.alarm, ground), 4.5);  // it is text, too
            EXPECT_GE(contrast(scheme.group_line, ground), 3) << scheme.group_line << " on " << ground;
            for (std::string_view line : scheme.lines) EXPECT_GE(contrast(line, ground), 3) << line << " on " << ground;
            for (const BoxColours& box : scheme.boxes) EXPECT_GE(contrast(box.line, ground), 3) << box.line;
        }
        EXPECT_GE(contrast(scheme.paper, scheme.ink), 4.5);  // badges
        for (const BoxColours& box : scheme.boxes) {
            EXPECT_GE(contrast(scheme.ink, box.fill), 4.5) << box.fill;
            EXPECT_GE(contrast(scheme.quiet, box.fill), 4.5) << box.fill;
            EXPECT_GE(contrast(box.line, box.fill), 3) << box.fill;
        }
    }
}

TEST(Svg, NoTwoKindsOfLineDifferInColourAlone) {
    for (std::size_t i = 0; i < line_styles.size(); ++i)
        for (std::size_t k = i + 1; k < line_styles.size(); ++k)
            EXPECT_TRUE(line_styles[i].dashes != line_styles[k].dashes ||
                        std::abs(line_styles[i].width - line_styles[k].width) > 0.5);
}

}  // namespace
}  // namespace ligament
