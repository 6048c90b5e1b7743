using System.Security.Cryptography;
using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.TakeIn;

/// <summary>The hash of a file that is already there, on the card or in the library.</summary>
internal static class ContentHash
{
    private const int BlockBytes = 512 * 1024;

    /// <summary>SHA-256 of all that <paramref name="read"/> gives, 64 lower-case hexadecimal digits.</summary>
    public static string Of(SafeFileHandle file, Func<SafeFileHandle, byte[], long, int> read, CancellationToken cancellation)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var block = new byte[BlockBytes];
        long offset = 0;
        for (int length; (length = read(file, block, offset)) > 0; offset += length)
        {
            cancellation.ThrowIfCancellationRequested();
            hash.AppendData(block, 0, length);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
