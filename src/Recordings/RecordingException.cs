using System.Globalization;
using System.Text;

namespace Athwart.Recordings;

/// <summary>Why a recording was refused.</summary>
public enum RecordingErrorKind
{
    /// <summary>Nothing in it says that it is a recording.</summary>
    NotARecording = 0,

    /// <summary>It breaks a rule of its format so that the samples cannot be found.</summary>
    Malformed,

    /// <summary>It is a recording of a kind that is not read here.</summary>
    Unsupported,

    /// <summary>It ends before the samples begin, or became shorter while it was read.</summary>
    Truncated,

    /// <summary>It asks for more than any recording needs, such as a million chunks.</summary>
    LimitReached,

    /// <summary>A library of the system is needed and is not there.</summary>
    LibraryMissing,

    /// <summary>The system would not let it be read: permissions, or a disk that failed.</summary>
    Unreadable,
}

/// <summary>The one error for a file's fault: names the file, the place, the rule broken and what to do.</summary>
public sealed class RecordingException : Exception
{
    /// <summary>Makes the error.</summary>
    /// <param name="kind">Why it was refused.</param>
    /// <param name="path">The file.</param>
    /// <param name="rule">The rule that was broken, as a sentence without its full stop.</param>
    /// <param name="remedy">What to do, as a sentence without its full stop.</param>
    /// <param name="byteOffset">Where in the file; null when it concerns the whole.</param>
    /// <param name="chunkId">The chunk it concerns; null when none.</param>
    /// <param name="inner">The cause; null when none.</param>
    public RecordingException(RecordingErrorKind kind, string path, string rule, string remedy, long? byteOffset = null, string? chunkId = null, Exception? inner = null)
        : base(Join(path, rule, remedy, byteOffset, chunkId), inner)
    {
        Kind = kind;
        Path = path;
        Rule = rule;
        Remedy = remedy;
        ByteOffset = byteOffset;
        ChunkId = chunkId;
    }

    /// <summary>Why it was refused.</summary>
    public RecordingErrorKind Kind { get; }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>Where in the file, in bytes from its start; null when it concerns the whole.</summary>
    public long? ByteOffset { get; }

    /// <summary>The chunk it concerns; null when none.</summary>
    public string? ChunkId { get; }

    /// <summary>The rule that was broken.</summary>
    public string Rule { get; }

    /// <summary>What to do about it.</summary>
    public string Remedy { get; }

    private static string Join(string path, string rule, string remedy, long? byteOffset, string? chunkId)
    {
        var text = new StringBuilder(path);
        if (byteOffset is { } offset)
            text.Append(CultureInfo.InvariantCulture, $", byte {offset}");
        if (chunkId is not null)
            text.Append(CultureInfo.InvariantCulture, $", chunk '{chunkId}'");
        return text.Append(CultureInfo.InvariantCulture, $": {rule}. {remedy}.").ToString();
    }
}
