// How often do wires cross?
#include <algorithm>
#include <tuple>

#include "wires.hpp"

namespace ligament {

namespace {

/// A straight piece of a net, level or upright: `at` across, from `low` to `high` along.
struct Piece {
    std::uint32_t net;
    double at, low, high;

    auto key() const { return std::tuple(net, at, low); }
};

/// Pieces of one net on one line that touch become one.
std::vector<Piece> merged(std::vector<Piece> pieces) {
    std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.key() < b.key(); });
    std::vector<Piece> out;
    for (const Piece& piece : pieces) {
        if (!out.empty() && out.back().net == piece.net && out.back().at == piece.at && piece.low <= out.back().high)
            out.back().high = std::max(out.back().high, piece.high);
        else
            out.push_back(piece);
    }
    return out;
}

}  // namespace

std::size_t count_crossings(const Wiring& wiring) {
    std::vector<Piece> level, upright;
    for (std::size_t w = 0; w < wiring.wires.size(); ++w)
        for (std::size_t i = 1; i < wiring.wires[w].size(); ++i) {
            const Point a = wiring.wires[w][i - 1], b = wiring.wires[w][i];
            if (a.y == b.y)
                level.push_back({wiring.nets[w], a.y, std::min(a.x, b.x), std::max(a.x, b.x)});
            else
                upright.push_back({wiring.nets[w], a.x, std::min(a.y, b.y), std::max(a.y, b.y)});
        }
    level = merged(std::move(level)), upright = merged(std::move(upright));
    std::sort(upright.begin(), upright.end(), [](const Piece& a, const Piece& b) { return a.at < b.at; });
    std::size_t crossings = 0;
    for (const Piece& piece : level) {
        auto at = std::upper_bound(upright.begin(), upright.end(), piece.low, [](double x, const Piece& p) { return x < p.at; });
        for (; at != upright.end() && at->at < piece.high; ++at)
            crossings += at->net != piece.net && at->low < piece.at && piece.at < at->high;
    }
    return crossings;
}

}  // namespace ligament
