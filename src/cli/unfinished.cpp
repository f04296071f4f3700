#include "unfinished.hpp"

#include <unistd.h>

#include <utility>

namespace ligament::cli {

namespace {

static_assert(std::atomic<Unfinished*>::is_always_lock_free);
std::atomic<Unfinished*> newest = nullptr;

}  // namespace

Unfinished::~Unfinished() {
    if (!is_watched()) return;
    take_away();
    keep();
}

void Unfinished::take_away() const noexcept {
    if (kind_ == Kind::file)
        unlink(path_.c_str());
    else
        rmdir(path_.c_str());
}

void Unfinished::watch(std::string path) {
    path_ = std::move(path);
    next_ = newest.load();
    newest = this;
}

void Unfinished::keep() {
    if (!is_watched()) return;
    std::atomic<Unfinished*>* link = &newest;
    while (*link != this) link = &link->load()->next_;
    *link = next_.load();
    path_.clear();
}

void take_away_unfinished() noexcept {
    for (const Unfinished* one = newest; one; one = one->next_) one->take_away();
}

}  // namespace ligament::cli
