namespace Athwart.Signals.Shaping;

/// <summary>One step of a treatment at work: it takes the pair frame by frame, in order, and changes it in place.</summary>
/// <remarks>
/// The same frames from the same <see cref="Begin"/> give the same bits however they are cut into blocks, on every machine, with and without
/// vector instructions. A step that needs to look ahead gives its frames later by <see cref="LatencyFrames"/>; whoever drives it feeds it that
/// much more. Frames that are not finite come in as zero: the driver sees to it and says so.
/// </remarks>
public interface IPairStage
{
    /// <summary>How many frames later than it went in a frame comes out; 0 or more, fixed for the life of the stage.</summary>
    int LatencyFrames { get; }

    /// <summary>How many frames before the first wanted one the stage has to begin, so that what lay earlier has no say above −140 dB.</summary>
    long SettlingFrames { get; }

    /// <summary>Forgets everything; the next frame to come in has this number in the take (negative before its start).</summary>
    /// <param name="firstFrame">Frame number in the take, at the take's own rate.</param>
    void Begin(long firstFrame);

    /// <summary>Takes the next frames and puts what comes out in their place. Allocates nothing.</summary>
    /// <param name="mid">Mid, full scale ±1; any length.</param>
    /// <param name="side">Side, of the mid's length, positive lobe to the left.</param>
    /// <exception cref="ArgumentException">The two lengths differ.</exception>
    void Process(Span<double> mid, Span<double> side);
}
