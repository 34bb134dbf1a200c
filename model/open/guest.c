/* SPDX-License-Identifier: GPL-3.0-or-later */
/* open/guest.c - see open/guest.h.
 *
 * GSL has one handler for all threads (GSL reference manual, "Error handlers"; seen), so calls at the
 * same time have to share the one that the host had: the first in takes it, the last out puts it
 * back. Their count is the only thing that this project keeps between calls.
 */
#include "open/guest.h"
#include <gsl/gsl_errno.h>
#include <pthread.h>

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static int inside;
static gsl_error_handler_t *theirs;

bool guest_enter(struct guest *guest, struct trouble *why)
{
    guest->plain = newlocale(LC_NUMERIC_MASK, "C", (locale_t)0);
    if (guest->plain == (locale_t)0)
        return trouble_set(why, TROUBLE_MEMORY, "there is not enough memory");
    guest->was = uselocale(guest->plain);
    pthread_mutex_lock(&lock);
    if (inside++ == 0)
        theirs = gsl_set_error_handler_off();
    pthread_mutex_unlock(&lock);
    return true;
}

void guest_leave(struct guest *guest)
{
    pthread_mutex_lock(&lock);
    if (--inside == 0)
        gsl_set_error_handler(theirs);
    pthread_mutex_unlock(&lock);
    uselocale(guest->was);
    freelocale(guest->plain);
}
