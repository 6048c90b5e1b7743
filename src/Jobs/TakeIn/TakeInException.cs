namespace Athwart.Jobs.TakeIn;

/// <summary>Why a card could not be taken in at all.</summary>
public enum TakeInErrorKind
{
    /// <summary>The card is not there or cannot be listed.</summary>
    CardNotFound = 0,

    /// <summary>The library lies on the card; the card is never written.</summary>
    LibraryOnCard,

    /// <summary>The library's disk has too little space; nothing was copied.</summary>
    NotEnoughSpace,

    /// <summary>Another process is taking a card into this session.</summary>
    SessionBusy,

    /// <summary>The library's folder cannot be written.</summary>
    LibraryNotWritable,
}

/// <summary>A card could not be taken in at all. What happens to single files is in the report.</summary>
public sealed class TakeInException : Exception
{
    /// <summary>A failure of the whole job.</summary>
    /// <param name="kind">Why.</param>
    /// <param name="path">The card or library concerned.</param>
    /// <param name="what">What is wrong, one sentence.</param>
    /// <param name="remedy">What to do, one sentence.</param>
    /// <param name="inner">What was underneath, if anything.</param>
    public TakeInException(TakeInErrorKind kind, string path, string what, string remedy, Exception? inner = null)
        : base($"{path}: {what} {remedy}", inner)
    {
        Kind = kind;
        Path = path;
        Remedy = remedy;
    }

    /// <summary>Why; callers map it to an exit code.</summary>
    public TakeInErrorKind Kind { get; }

    /// <summary>The card or library concerned.</summary>
    public string Path { get; }

    /// <summary>What to do, one sentence.</summary>
    public string Remedy { get; }
}
