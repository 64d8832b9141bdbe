/*
 * A program that does nothing: linked with a floor's objects and only those of
 * the floors that it may use, it shows that no call of theirs goes upward.
 * SPDX-License-Identifier: MIT
 */
int main(void)
{
    return 0;
}
