#include "app/session/convert.h"

namespace app::session {

namespace {

evidence::Code converted(imaging::Code code) {
    using From = imaging::Code;
    using To = evidence::Code;
    switch (code) {
        case From::MissingFile:
            return To::MissingFile;
        case From::NotAPicture:
        case From::UnsupportedFormat:
        case From::Unreadable:
        case From::BadDocument:
            return To::BadDocument;
        case From::TooLarge:
            return To::TooLarge;
        case From::NoSuchPage:
        case From::MissingTarget:
            return To::MissingTarget;
        case From::UnknownKey:
            return To::UnknownKey;
        case From::MissingKey:
            return To::MissingKey;
        case From::WrongType:
            return To::WrongType;
        case From::BadUnit:
            return To::BadUnit;
        case From::NotFinite:
            return To::NotFinite;
        case From::DuplicateId:
            return To::DuplicateId;
        case From::NotAvailable:
            return To::WrongUse;
        case From::BadValue:
        case From::OutsideSheet:
        case From::NoFit:
        case From::NoSolution:
            return To::BadValue;
    }
    return To::BadValue;
}

}  // namespace

evidence::Refusal converted(const imaging::Refusal& refusal, const std::string& prefix) {
    return {converted(refusal.code), prefix + refusal.place, refusal.help};
}

}  // namespace app::session
