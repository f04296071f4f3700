// What makes a finding the same one in another revision?
#include "ligament/review.hpp"

namespace ligament {

Identity identity_of(const Rig& rig, const Finding& finding) {
    Identity identity{.check = finding.check, .bones = {}, .subject = finding.subject, .maker = finding.maker};
    identity.bones.reserve(finding.bones.size());
    for (BoneId bone : finding.bones) identity.bones.push_back(rig.bones[bone].name);
    return identity;
}

}  // namespace ligament
