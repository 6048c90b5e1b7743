using System.Security.Cryptography;
using System.Text;

namespace Athwart.Jobs.Storage;

/// <summary>Small files that appear whole or not at all, and hashes of files of any size.</summary>
internal static class WholeFile
{
    private const int BlockBytes = 256 * 1024;

    /// <summary>Writes beside the target, flushes to the disk, then renames over it.</summary>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        var unfinished = path + ".part";
        using (var file = new FileStream(unfinished, FileMode.Create, FileAccess.Write, FileShare.None, bufferSize: 1))
        {
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }

        File.Move(unfinished, path, overwrite: true);
    }

    /// <summary>Writes a text as UTF-8, if the file is new or may be replaced.</summary>
    /// <exception cref="JobException">It is there already.</exception>
    public static void Write(string path, string text, bool overwrite)
    {
        RequireFree(path, overwrite);
        Write(path, Encoding.UTF8.GetBytes(text));
    }

    /// <summary>Refuses a file that is there already, unless it may be replaced.</summary>
    /// <exception cref="JobException">It is there already.</exception>
    public static void RequireFree(string path, bool overwrite)
    {
        if (!overwrite && File.Exists(path))
            throw new JobException(JobErrorKind.Refused, $"'{path}' is there already.", "Choose another name, or give --overwrite.");
    }

    /// <summary>SHA-256 of a small file, or of one just written.</summary>
    public static string Sha256(string path) => Sha256(path, null, CancellationToken.None);

    /// <summary>SHA-256 of a file as 64 lower-case hexadecimal digits.</summary>
    public static string Sha256(string path, Action<long>? advanced, CancellationToken cancellation)
    {
        using var handle = File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.Read, FileOptions.SequentialScan);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var block = new byte[BlockBytes];
        for (long at = 0; ;)
        {
            cancellation.ThrowIfCancellationRequested();
            var read = RandomAccess.Read(handle, block, at);
            if (read == 0)
                return Convert.ToHexStringLower(hash.GetHashAndReset());
            hash.AppendData(block, 0, read);
            at += read;
            advanced?.Invoke(read);
        }
    }
}
