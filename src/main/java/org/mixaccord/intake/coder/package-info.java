/**
 * What runs inside the child process that decodes and encodes: the FFmpeg libraries behind two
 * small commands. The server never loads them itself; it starts a Java machine of its own, confined
 * and with nothing but one file on its standard input, for every file.
 */
package org.mixaccord.intake.coder;
