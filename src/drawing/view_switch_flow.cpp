// How are what a property drives and what moves by it put into columns and onto pages?
#include "view_switch_flow.hpp"

#include <algorithm>
#include <cmath>

#include "text.hpp"

namespace ligament {

namespace {

constexpr double moved_gap = 7, least_moved = 220, most_moved = 340;

MovedCard moved_card(const Subject& subject, const SwitchPlan& plan, std::size_t group, double width, std::size_t lines) {
    MovedCard card;
    card.group = group;
    const std::vector<BoneId>& deform = plan.moved[group].deform;
    for (BoneId bone : deform) card.rows.push_back(plain_row_of(subject, bone));
    card.grid = fit_grid(card.rows, width - 2 * card_padding);
    if (card.grid.rows <= lines) return card;
    card.rows.resize(std::min(card.rows.size(), lines * card.grid.columns));
    card.grid.rows = lines;
    card.left_out = deform.size() - card.rows.size();
    return card;
}

std::vector<std::vector<MovedCard>> flow_moved(const Subject& subject, const SwitchPlan& plan, double width, double height,
                                               std::size_t lines) {
    std::vector<std::vector<MovedCard>> pages(1);
    double y = head_height;
    for (std::size_t g = 0; g < plan.moved.size(); ++g) {
        MovedCard card = moved_card(subject, plan, g, width, lines);
        if (y + card.height() > height && y > head_height) {
            pages.emplace_back();
            y = head_height;
        }
        card.y = y;
        y += card.height() + moved_gap;
        pages.back().push_back(std::move(card));
    }
    return pages;
}

}  // namespace

std::string words_head(const SwitchPlan& plan) { return plan.constraints ? "constraint, kind, place" : "channel or value"; }

SwitchPlaces places_for(const Subject& subject, const SwitchPlan& plan, Room room) {
    SwitchPlaces places;
    double formula = 100, name = width_of(target_head, row_size), words = width_of(words_head(plan), row_size),
           moved = least_moved;
    for (const DriveCard& card : plan.cards) {
        formula = std::max(formula, width_of(card.formula, row_size) + 2 * card_padding);
        for (const std::string& input : card.inputs) formula = std::max(formula, width_of(input, row_size) + 2 * card_padding);
        for (const DriveTarget& target : card.targets) {
            name = std::max(name, width_of(target.name, row_size) + (target.kind == DriveTarget::Kind::gap ? 54 : 28));
            words = std::max(words, width_of(target.words, row_size));
        }
    }
    for (const MovedGroup& group : plan.moved)
        moved = std::max(moved, width_of(drawable(subject.groups[group.group]), row_size) + 160);
    places.formula = places.property + property_width + trunk_gap;
    places.formula_width = std::ceil(std::min(formula, 190.0));
    places.target = places.formula + places.formula_width + trunk_gap;
    const double rest = room.width - places.target - 6 - 50 - least_moved - 2;  // for names and words
    places.target_width = std::ceil(std::clamp(name, 110.0, std::max(110.0, std::min(rest * 0.55, 260.0))));
    places.words = places.target + places.target_width + 6;
    places.words_width = std::floor(std::min(words + 1, rest - places.target_width));
    places.bracket = places.words + places.words_width + 6;
    places.moved = places.bracket + 44;
    places.moved_width = std::floor(std::min(room.width - places.moved - 2, std::min(moved, most_moved)));
    return places;
}

double card_height(const DriveCard& card, const SwitchPlaces& places) {
    const double inner = places.formula_width - 2 * card_padding;
    const std::size_t lines = std::min<std::size_t>(3, std::max<std::size_t>(1, broken(card.formula, row_size, inner).size()));
    const std::size_t inputs = std::min<std::size_t>(card.inputs.size(), 4);
    return static_cast<double>(lines + inputs) * line_height + 2 * card_padding;
}

double height_of(const DriveCard& card, const DriveBlock& block, const SwitchPlaces& places) {
    return std::max(card_height(card, places), static_cast<double>(block.to - block.from) * target_pitch) + block_gap;
}

std::vector<std::vector<DriveBlock>> flow_blocks(const SwitchPlan& plan, const SwitchPlaces& places, double height) {
    std::vector<std::vector<DriveBlock>> pages(1);
    double y = head_height;
    for (std::size_t c = 0; c < plan.cards.size(); ++c) {
        const DriveCard& card = plan.cards[c];
        for (std::size_t from = 0; from < card.targets.size();) {
            DriveBlock block{c, from, card.targets.size(), y};
            const bool is_fitting = y + height_of(card, block, places) <= height;
            const double least = std::max(card_height(card, places), 3 * target_pitch) + block_gap;
            if (!is_fitting && y > head_height && y + least > height) {
                pages.emplace_back();
                y = head_height;
                continue;
            }
            if (!is_fitting) {
                const double lines = std::max(1.0, std::floor((height - y - block_gap) / target_pitch));
                block.to = std::min(block.to, from + static_cast<std::size_t>(lines));
            }
            y += height_of(card, block, places);
            from = block.to;
            pages.back().push_back(block);
        }
    }
    return pages;
}

std::vector<std::vector<MovedCard>> best_moved(const Subject& subject, const SwitchPlan& plan, double width, double height,
                                               std::size_t pages) {
    const auto most = static_cast<std::size_t>((height - head_height - 2 * line_height - 10) / row_height) - 1;
    std::vector<std::vector<MovedCard>> flow;
    for (std::size_t lines : {most, std::size_t{12}, std::size_t{6}, std::size_t{3}, std::size_t{1}, std::size_t{0}}) {
        flow = flow_moved(subject, plan, width, height, std::min(lines, most));
        if (flow.size() <= pages) return flow;
    }
    return flow;
}

}  // namespace ligament
