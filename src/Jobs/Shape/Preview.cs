using Athwart.Jobs.Roles;
using Athwart.Recordings;
using Athwart.Signals.Decoding;

namespace Athwart.Jobs.Shape;

/// <summary>Any piece of a treated take at once, without rendering the rest: what is heard while a treatment is chosen.</summary>
/// <remarks>
/// Each piece begins as much earlier as the steps need to settle (−140 dB), so a rendering of a cut may differ from it below hearing, and
/// is the only one that counts. Asking for the piece that follows the last one goes on without settling. Safe to call from several threads;
/// they take turns.
/// </remarks>
public sealed class Preview : IDisposable
{
    private const int BlockFrames = 4096;

    private readonly Take _take;
    private readonly TreatedChain _chain;
    private readonly double[] _mid = new double[BlockFrames];
    private readonly double[] _side = new double[BlockFrames];
    private readonly Lock _turn = new();
    private long _next = -1;

    /// <summary>Opens a take.</summary>
    /// <param name="take">The take.</param>
    /// <param name="roles">Which channel is which.</param>
    /// <param name="steps">What is done; none for the pair as recorded.</param>
    /// <param name="sideGain">g of the decode.</param>
    /// <exception cref="RecordingException">It cannot be read.</exception>
    public Preview(TakeDescription take, RoleAssignment roles, IReadOnlyList<TreatmentStep> steps, double sideGain)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(roles);
        ArgumentNullException.ThrowIfNull(steps);
        SideGain = sideGain;
        SampleRateHertz = take.SampleRateHertz;
        _take = take.Open();
        _chain = TreatedStream.Open(_take, roles, steps, sideGain, 0, take.FrameCount);
    }

    /// <summary>Frames a second.</summary>
    public int SampleRateHertz { get; }

    /// <summary>Frames of the take as treated.</summary>
    public long FrameCount => _chain.Length;

    /// <summary>g of the decode.</summary>
    public double SideGain { get; }

    /// <summary>A piece as left and right.</summary>
    /// <param name="from">The first frame, in the time of the treated take.</param>
    /// <param name="left">Receives left, full scale ±1, never limited; silence outside the take.</param>
    /// <param name="right">Receives right, as many frames.</param>
    public void ReadStereo(long from, Span<float> left, Span<float> right) => Read(from, left, right, decode: true);

    /// <summary>A piece as mid and side.</summary>
    /// <inheritdoc cref="ReadStereo"/>
    public void ReadMidSide(long from, Span<float> mid, Span<float> side) => Read(from, mid, side, decode: false);

    /// <summary>Closes the take.</summary>
    public void Dispose() => _take.Dispose();

    private void Read(long from, Span<float> first, Span<float> second, bool decode)
    {
        if (first.Length != second.Length)
            throw new ArgumentException($"Two channels of one length are filled, not {first.Length} and {second.Length} frames.", nameof(second));
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        lock (_turn)
        {
            if (from != _next)
                _chain.Pair.Begin(from);
            _next = -1;
            for (var done = 0; done < first.Length; done += BlockFrames)
            {
                var count = Math.Min(BlockFrames, first.Length - done);
                Block(first.Slice(done, count), second.Slice(done, count), decode);
            }

            _next = from + first.Length;
        }
    }

    private void Block(Span<float> first, Span<float> second, bool decode)
    {
        Span<double> mid = _mid.AsSpan(0, first.Length), side = _side.AsSpan(0, first.Length);
        _chain.Pair.Read(mid, side);
        if (decode)
            MidSide.Decode(mid, side, SideGain, mid, side);
        for (var n = 0; n < first.Length; n++)
            (first[n], second[n]) = ((float)mid[n], (float)side[n]);
    }
}
