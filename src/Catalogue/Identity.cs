using System.Security.Cryptography;

namespace Athwart.Catalogue;

/// <summary>Makes the ids of rows. Random, so two processes need not ask each other and a short prefix tells rows apart.</summary>
internal static class Identity
{
    private const int Digits = 12;

    public static string New() => RandomNumberGenerator.GetHexString(Digits, lowercase: true);
}
