/* headline.h: what stands over everything: how far the check is, and what it comes to. */
#pragma once

#include "session.h"
#include "site-view.h"
#include "words.h"

/* How far the check of what is shown is. */
TrnHeadline desk_headline_state (DeskSession *session);

/* What all comes to, by the mark of the worst; what is not all there is not known. */
RenderState desk_headline_mark (DeskSession *session, TrnHeadline state);
