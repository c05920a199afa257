#include "imaging/refusal.h"

namespace imaging {

std::string_view codeName(Code code) {
    switch (code) {
        case Code::MissingFile:
            return "missing-file";
        case Code::NotAPicture:
            return "not-a-picture";
        case Code::UnsupportedFormat:
            return "unsupported-format";
        case Code::TooLarge:
            return "too-large";
        case Code::Unreadable:
            return "unreadable";
        case Code::NoSuchPage:
            return "no-such-page";
        case Code::BadDocument:
            return "bad-document";
        case Code::UnknownKey:
            return "unknown-key";
        case Code::MissingKey:
            return "missing-key";
        case Code::WrongType:
            return "wrong-type";
        case Code::BadValue:
            return "bad-value";
        case Code::BadUnit:
            return "bad-unit";
        case Code::NotFinite:
            return "not-finite";
        case Code::MissingTarget:
            return "missing-target";
        case Code::DuplicateId:
            return "duplicate-id";
        case Code::NotAvailable:
            return "not-available";
        case Code::OutsideSheet:
            return "outside-sheet";
        case Code::NoFit:
            return "no-fit";
        case Code::NoSolution:
            return "no-solution";
    }
    return "bad-value";
}

}  // namespace imaging
