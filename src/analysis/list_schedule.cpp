#include "list_schedule.hpp"

#include <algorithm>
#include <bit>
#include <functional>
#include <utility>

namespace ligament {

namespace {

/// Numbers below a limit, of which the smallest is found quickly: bits, and above each 64 words of them one bit a word.
class SmallestFirst {
  public:
    explicit SmallestFirst(std::size_t limit) {
        do {
            limit = (limit + 63) / 64;
            tiers_.emplace_back(std::max<std::size_t>(limit, 1), 0);
        } while (limit > 1);
    }
    bool empty() const { return tiers_.back().front() == 0; }
    void insert(std::size_t number) {
        for (std::vector<std::uint64_t>& tier : tiers_) {
            std::uint64_t& word = tier[number / 64];
            const bool is_known_above = word != 0;
            word |= std::uint64_t{1} << number % 64;
            if (is_known_above) break;
            number /= 64;
        }
    }
    std::uint32_t take_smallest() {
        std::size_t number = 0;
        for (std::size_t t = tiers_.size(); t-- > 0;)
            number = number * 64 + static_cast<std::size_t>(std::countr_zero(tiers_[t][number]));
        const auto smallest = static_cast<std::uint32_t>(number);
        for (std::vector<std::uint64_t>& tier : tiers_) {
            tier[number / 64] &= ~(std::uint64_t{1} << number % 64);
            if (tier[number / 64] != 0) break;
            number /= 64;
        }
        return smallest;
    }

  private:
    std::vector<std::vector<std::uint64_t>> tiers_;
};

/// Tells what is done, and all that takes no time behind it: admits the places of the tasks in the list that wait for nothing
/// more.
template <class Admit>
void finish(const Rows& needed_by, std::span<const std::uint32_t> place, std::uint32_t task,
            std::vector<std::uint32_t>& waiting_for, std::vector<std::uint32_t>& at_once, Admit admit) {
    at_once.push_back(task);
    while (!at_once.empty()) {
        const std::uint32_t done = at_once.back();
        at_once.pop_back();
        for (std::uint32_t after : needed_by.of(done)) {
            if (--waiting_for[after] != 0) continue;
            if (place[after] == none)
                at_once.push_back(after);
            else
                admit(place[after]);
        }
    }
}

using Ending = std::pair<double, std::uint32_t>;  // when, which place

/// What is running. Where all tasks take as long, those that run at once end at once: a plain list does.
class Running {
  public:
    explicit Running(bool is_even) : is_even_(is_even) {}
    bool empty() const { return running_.empty(); }
    std::size_t size() const { return running_.size(); }
    void add(Ending ending) {
        running_.push_back(ending);
        if (!is_even_) std::push_heap(running_.begin(), running_.end(), std::greater<>());
    }
    double next_end() const { return running_.front().first; }
    std::uint32_t take_next() {
        if (!is_even_) std::pop_heap(running_.begin(), running_.end(), std::greater<>());
        const std::uint32_t place = running_.back().second;
        running_.pop_back();
        return place;
    }

  private:
    bool is_even_;
    std::vector<Ending> running_;
};

}  // namespace

ListSchedule::ListSchedule(const Rows& needs, const Rows& needed_by, std::span<const double> duration,
                           std::vector<std::uint32_t> list)
    : needed_by_(needed_by), list_(std::move(list)), place_(needs.size(), none) {
    duration_.reserve(list_.size());
    for (std::uint32_t i = 0; i < list_.size(); ++i) {
        place_[list_[i]] = i;
        duration_.push_back(duration[list_[i]]);
        is_even_ = is_even_ && duration_[i] == duration_[0];
    }
    waiting_for_.reserve(needs.size());
    for (std::uint32_t task = 0; task < needs.size(); ++task)
        waiting_for_.push_back(static_cast<std::uint32_t>(needs.of(task).size()));
    std::vector<std::uint32_t> at_once;
    for (std::uint32_t task = 0; task < needs.size(); ++task) {
        if (!needs.of(task).empty()) continue;
        if (place_[task] != none)
            ready_.push_back(place_[task]);
        else
            finish(needed_by_, place_, task, waiting_for_, at_once, [&](std::uint32_t place) { ready_.push_back(place); });
    }
}

ListTime ListSchedule::on(std::uint32_t workers) const {
    ListTime result;
    SmallestFirst ready(list_.size());
    for (std::uint32_t place : ready_) ready.insert(place);
    std::vector<std::uint32_t> waiting_for = waiting_for_, at_once;
    Running running(is_even_);
    while (true) {
        while (!ready.empty() && running.size() < workers) {
            const std::uint32_t place = ready.take_smallest();
            running.add({result.time + duration_[place], place});
        }
        result.any_waited = result.any_waited || !ready.empty();
        if (running.empty()) return result;
        result.time = running.next_end();
        while (!running.empty() && running.next_end() <= result.time)
            finish(needed_by_, place_, list_[running.take_next()], waiting_for, at_once,
                   [&](std::uint32_t place) { ready.insert(place); });
    }
}

}  // namespace ligament
