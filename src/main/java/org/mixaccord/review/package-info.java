/** When a song is approved, what stands before it, and whom it waits for. Pure. */
package org.mixaccord.review;
