// A packed ride handed out to phones: the files of its folder, to be read and nothing else.
#pragma once

#include "server/http/guard.h"
#include "server/http/static_files.h"

namespace outbye {

// What is referred to must outlive it.
Site make_packed_site(StaticFiles& files, const OwnNames& own);

}  // namespace outbye
