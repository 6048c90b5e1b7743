using Athwart.Catalogue;

namespace Athwart.Jobs.Listening;

/// <summary>A take in use by one request.</summary>
public sealed class TakeLease : IDisposable
{
    private readonly OpenedTake _opened;
    private int _returned;

    internal TakeLease(OpenedTake opened) => _opened = opened;

    /// <summary>The take.</summary>
    public ListeningTake Take => _opened.Take;

    /// <summary>Its stored peaks, or how far their making has come; the first call begins it.</summary>
    public PeakState Peaks() => _opened.Peaks.State();

    /// <summary>Gives it back.</summary>
    public void Dispose()
    {
        if (Interlocked.Exchange(ref _returned, 1) == 0)
            _opened.Return();
    }
}

/// <summary>Where the peaks of a take stand.</summary>
/// <param name="Pyramid">The peaks; null while they are being made.</param>
/// <param name="Fraction">How much is made, 0 to 1.</param>
/// <param name="Error">Why they could not be made; the next call tries again.</param>
public sealed record PeakState(PeakPyramid? Pyramid, double Fraction, Exception? Error);

/// <summary>A take held open, closed when it is retired and nobody uses it any more.</summary>
internal sealed class OpenedTake(TakeId id, string fingerprint, ListeningTake take, string peakPath)
{
    // One use is the room's own, given up by Retire.
    private int _uses = 1;

    public TakeId Id => id;

    public string Fingerprint => fingerprint;

    public ListeningTake Take => take;

    /// <summary>Owns the take: the maker of the peaks may read longer than the last request.</summary>
    public PeakStore Peaks { get; } = new(take, peakPath);

    /// <summary>Whether no request uses it and nothing is being made of it. Asked under the room's lock, where every use begins.</summary>
    public bool IsIdle => Volatile.Read(ref _uses) == 1 && !Peaks.IsWorking;

    public TakeLease Rent()
    {
        Interlocked.Increment(ref _uses);
        return new(this);
    }

    /// <summary>Always true, for use in a predicate.</summary>
    public bool Retire()
    {
        Peaks.Stop();
        Return();
        return true;
    }

    public void Return()
    {
        if (Interlocked.Decrement(ref _uses) == 0)
            Peaks.Dispose();
    }
}
