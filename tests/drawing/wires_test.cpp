// Do wires keep off boxes and off each other, and are their crossings counted right?
#include "wires.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

namespace ligament {
namespace {

constexpr double apart = 3.9;  // what two wires of different nets that run side by side must keep

struct Piece {
    Point a, b;
    std::uint32_t wire;

    bool level() const { return a.y == b.y; }
    Rect rect() const { return {std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)}; }
};

std::vector<Piece> pieces_of(const Wiring& wiring) {
    std::vector<Piece> pieces;
    for (std::uint32_t w = 0; w < wiring.wires.size(); ++w)
        for (std::size_t i = 1; i < wiring.wires[w].size(); ++i)
            pieces.push_back({wiring.wires[w][i - 1], wiring.wires[w][i], w});
    return pieces;
}

/// Inside the box, its border left out.
bool runs_through(const Piece& piece, const Rect& box) {
    const Rect r = piece.rect();
    if (piece.level()) return box.y < r.y && r.y < box.bottom() && r.x < box.right() && box.x < r.right();
    return box.x < r.x && r.x < box.right() && r.y < box.bottom() && box.y < r.bottom();
}

bool lie_on_each_other(const Piece& a, const Piece& b) {
    if (a.level() != b.level()) return false;
    const Rect r = a.rect(), s = b.rect();
    return a.level() ? std::abs(r.y - s.y) < apart && r.x < s.right() && s.x < r.right()
                     : std::abs(r.x - s.x) < apart && r.y < s.bottom() && s.y < r.bottom();
}

void expect_sound(const Wiring& wiring, std::span<const WiredBox> boxes, std::span<const Wire> wires) {
    for (std::size_t a = 0; a < boxes.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) EXPECT_FALSE(wiring.boxes[a].overlaps(wiring.boxes[b]));
    const Rect page{0, 0, wiring.width, wiring.height};
    for (const Rect& box : wiring.boxes) EXPECT_TRUE(page.contains(box));
    ASSERT_EQ(wiring.wires.size(), wires.size());
    for (std::size_t w = 0; w < wires.size(); ++w) {
        const Point start = wiring.wires[w].front(), end = wiring.wires[w].back();
        const Rect &from = wiring.boxes[wires[w].from], &to = wiring.boxes[wires[w].to];
        EXPECT_EQ(start.y, from.bottom());
        EXPECT_TRUE(from.x < start.x && start.x < from.right());
        EXPECT_EQ(end.x, to.x);
        EXPECT_DOUBLE_EQ(end.y, to.y + boxes[wires[w].to].inlets[wires[w].inlet]);
        for (Point p : wiring.wires[w]) EXPECT_TRUE(page.contains({p.x, p.y, 0, 0})) << p.x << " " << p.y;
    }
    const std::vector<Piece> pieces = pieces_of(wiring);
    for (const Piece& piece : pieces) {
        EXPECT_TRUE(piece.level() || piece.a.x == piece.b.x);
        for (const Rect& box : wiring.boxes) EXPECT_FALSE(runs_through(piece, box));
        for (const Piece& other : pieces) {
            const bool same = wiring.nets[piece.wire] == wiring.nets[other.wire];
            EXPECT_FALSE(!same && lie_on_each_other(piece, other)) << piece.wire << " " << other.wire;
        }
    }
}

/// Points where wires of two nets cross, each once for a pair of nets.
std::size_t count_naively(const Wiring& wiring) {
    std::set<std::tuple<std::uint32_t, std::uint32_t, double, double>> found;
    const std::vector<Piece> pieces = pieces_of(wiring);
    for (const Piece& level : pieces)
        for (const Piece& upright : pieces) {
            if (!level.level() || upright.level() || wiring.nets[level.wire] == wiring.nets[upright.wire]) continue;
            const Rect r = level.rect(), s = upright.rect();
            if (r.x < s.x && s.x < r.right() && s.y < r.y && r.y < s.bottom())
                found.emplace(wiring.nets[level.wire], wiring.nets[upright.wire], s.x, r.y);
        }
    return found.size();
}

TEST(Wires, RandomBoardsAreSound) {
    std::mt19937 random(7);
    auto below = [&](std::size_t n) { return static_cast<std::uint32_t>(random() % n); };
    for (int board = 0; board < 40; ++board) {
        std::vector<WiredBox> boxes(2 + below(14));
        for (WiredBox& box : boxes) {
            box.row = below(4);
            box.width = 60.0 + below(80), box.height = 60.0 + below(60);
            for (double y = 12; y + 10 < box.height; y += 12) box.inlets.push_back(y);
        }
        std::vector<Wire> wires(below(40));
        for (Wire& wire : wires) {
            wire.from = below(boxes.size()), wire.to = below(boxes.size()), wire.lane = below(2);
            wire.inlet = below(boxes[wire.to].inlets.size());
        }
        const Wiring wiring = lay_wires(boxes, wires);
        expect_sound(wiring, boxes, wires);
        EXPECT_EQ(count_crossings(wiring), count_naively(wiring)) << "board " << board;
    }
}

TEST(Wires, AHubHasOneTrunkAndCrossesNothing) {
    std::vector<WiredBox> boxes{{0, 4, 80, 40, {}}};
    std::vector<Wire> wires;
    for (std::uint32_t i = 0; i < 27; ++i) {
        boxes.push_back({1 + i / 9, i % 9, 80, 40, {20}});
        wires.push_back({0, i + 1, 0, 0});
    }
    const Wiring wiring = lay_wires(boxes, wires);
    expect_sound(wiring, boxes, wires);
    EXPECT_EQ(count_crossings(wiring), 0u);
    EXPECT_EQ(std::set(wiring.nets.begin(), wiring.nets.end()).size(), 1u);
}

TEST(Wires, ManyIntoOneInletShareItsTrunk) {
    std::vector<WiredBox> boxes;
    std::vector<Wire> wires;
    for (std::uint32_t i = 0; i < 12; ++i) boxes.push_back({i / 4, none, 80, 40, {}});
    boxes.push_back({3, 1, 80, 40, {10, 30}});
    for (std::uint32_t i = 0; i < 12; ++i) wires.push_back({i, 12, i < 11 ? 1u : 0u, 0});
    const Wiring wiring = lay_wires(boxes, wires);
    expect_sound(wiring, boxes, wires);
    EXPECT_EQ(wiring.nets[0], wiring.nets[10]);
    EXPECT_NE(wiring.nets[0], wiring.nets[11]);
    EXPECT_EQ(wiring.wires[0][3].x, wiring.wires[10][3].x);
}

/// A chain written like lines of text needs one track a channel.
TEST(Wires, NetsThatDoNotMeetShareATrack) {
    std::vector<WiredBox> boxes;
    std::vector<Wire> wires;
    for (std::uint32_t i = 0; i < 10; ++i) boxes.push_back({0, none, 80, 40, {20}});
    for (std::uint32_t i = 1; i < 10; ++i) wires.push_back({i - 1, i, 0, 0});
    const Wiring wiring = lay_wires(boxes, wires);
    expect_sound(wiring, boxes, wires);
    for (const auto& wire : wiring.wires) EXPECT_EQ(wire[1].y, wiring.wires[0][1].y);
    EXPECT_EQ(count_crossings(wiring), 0u);
}

/// Room that is left goes between the boxes, no more than is said to each place.
TEST(Wires, RoomIsShared) {
    std::vector<WiredBox> boxes;
    for (std::uint32_t i = 0; i < 9; ++i) boxes.push_back({i / 3, i % 3, 80, 40, {20}});
    const std::vector<Wire> wires{{0, 4, 0, 0}, {1, 8, 0, 0}, {8, 0, 0, 0}};
    const Wiring tight = lay_wires(boxes, wires);
    WireRules rules;
    rules.width = tight.width + 40, rules.height = tight.height + 1000;
    const Wiring wide = lay_wires(boxes, wires, rules);
    expect_sound(wide, boxes, wires);
    EXPECT_DOUBLE_EQ(wide.width, rules.width);
    EXPECT_DOUBLE_EQ(wide.height, tight.height + 2 * rules.most_spread);
    rules.few_crossings = false;
    EXPECT_EQ(lay_wires(boxes, wires, rules).width, wide.width);
}

TEST(Wires, NothingGivesNothing) {
    EXPECT_EQ(lay_wires({}, {}).width, 0);
    const std::vector<WiredBox> one{{0, none, 80, 40, {20}}};
    const std::vector<Wire> loop{{0, 0, 0, 0}};
    EXPECT_EQ(lay_wires(one, {}).height, 40);
    expect_sound(lay_wires(one, loop), one, loop);
}

}  // namespace
}  // namespace ligament
