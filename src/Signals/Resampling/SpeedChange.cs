using System.Globalization;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Resampling;

/// <summary>Plays a recording slower or faster, pitch and time together; any stretch of the output can be computed alone, with the same bits.</summary>
/// <remarks>
/// Output frame n is the recording at the place n·speed, exactly: the place is kept in whole parts of 2^-58 of a frame, in which every
/// speed that a double can hold in range is whole. Slower loses nothing and brings what lay above hearing down into it: at half speed 30 kHz
/// are heard as 15 kHz. Faster takes away what would fold back: what lies above the new Nyquist frequency. Flat within 0.01 dB to 0.9 of the
/// lower Nyquist frequency; images and aliases at least 120 dB down (the tests print what they measure). Frames outside the recording count as
/// silence. Holds no state but its coefficients: threads may share it.
/// </remarks>
public sealed class SpeedChange
{
    /// <summary>1/32: five octaves down.</summary>
    public const double Slowest = 1.0 / 32;

    /// <summary>32: five octaves up.</summary>
    public const double Fastest = 32;

    private const int PlaceBits = 58;
    private const int Lanes = 4;
    private readonly SpeedKernel _kernel;
    private readonly ulong _step;

    /// <summary>A change of speed.</summary>
    /// <param name="speed">Input frames for each output frame: 0.5 is half as fast and an octave down, 2 twice as fast and an octave up; 1/32 to 32.</param>
    /// <exception cref="ArgumentOutOfRangeException">The speed is out of range; 0 would never end.</exception>
    public SpeedChange(double speed)
    {
        if (!(speed is >= Slowest and <= Fastest))
            throw new ArgumentOutOfRangeException(nameof(speed), speed, "A speed is from 1/32 (0.03125) to 32; 1 is as recorded. Give a value in that range or leave the step out.");
        Speed = speed;
        _step = StepOf(speed);
        _kernel = SpeedKernel.For(speed);
    }

    /// <summary>Input frames for each output frame.</summary>
    public double Speed { get; }

    /// <summary>The input frames before and after its place that an output frame may depend on.</summary>
    public int Reach => _kernel.Reach;

    /// <summary>How many frames come out: inputLength/speed, rounded up; 0 for 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The length is below 0.</exception>
    public long OutputLength(long inputLength) => OutputLength(Speed, inputLength);

    /// <summary>Where in the recording an output frame lies, in frames.</summary>
    public double InputPlace(long output)
    {
        var whole = Whole(output, out var part);
        return whole + (part / (double)(1UL << PlaceBits));
    }

    /// <summary>The input frames that a stretch of output depends on, from first to (not including) last; From may lie before frame 0.</summary>
    public (long From, long To) InputRange(long firstOutput, int count) => count <= 0
        ? (0, 0)
        : (Whole(firstOutput, out _) - Reach + 1, Whole(firstOutput + count - 1, out _) + Reach + 1);

    /// <summary>Plays one channel.</summary>
    /// <param name="window">Consecutive input frames; frames outside it count as silence, so it covers <see cref="InputRange"/> as far as the recording goes.</param>
    /// <param name="windowFirstFrame">The frame number of the first one.</param>
    /// <param name="firstOutput">The number of the first output frame, 0 or more.</param>
    /// <param name="output">Receives consecutive output frames; apart from <paramref name="window"/>.</param>
    /// <exception cref="ArgumentException">The first output frame is below 0, or the spans overlap.</exception>
    public void Convert(ReadOnlySpan<double> window, long windowFirstFrame, long firstOutput, Span<double> output)
    {
        Check(window, firstOutput, output);
        var edge = new double[_kernel.RowLength];
        for (var n = 0; n < output.Length; n++)
        {
            var whole = Whole(firstOutput + n, out var part);
            output[n] = Speed == 1
                ? At(window, whole - windowFirstFrame)
                : One(SampleRateConverter.Stretch(window, whole - Reach + 1 - windowFirstFrame, edge), part);
        }
    }

    /// <summary>Plays two channels with the same speed, with the bits of two single ones in less time.</summary>
    /// <param name="first">Input frames of one channel.</param>
    /// <param name="second">Input frames of the other, as many.</param>
    /// <param name="windowFirstFrame">The frame number of the first ones.</param>
    /// <param name="firstOutput">The number of the first output frame, 0 or more.</param>
    /// <param name="firstOutputs">Receives output frames of one channel.</param>
    /// <param name="secondOutputs">Receives as many of the other.</param>
    /// <exception cref="ArgumentException">The lengths differ, or as for one channel.</exception>
    public void Convert(ReadOnlySpan<double> first, ReadOnlySpan<double> second, long windowFirstFrame, long firstOutput, Span<double> firstOutputs, Span<double> secondOutputs)
    {
        if (second.Length != first.Length || secondOutputs.Length != firstOutputs.Length)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Both channels have equally many frames, not {first.Length} and {second.Length} in, {firstOutputs.Length} and {secondOutputs.Length} out."), nameof(second));
        Check(first, firstOutput, firstOutputs);
        Check(second, firstOutput, secondOutputs);
        var edges = new double[2 * _kernel.RowLength];
        for (var n = 0; n < firstOutputs.Length; n++)
        {
            var whole = Whole(firstOutput + n, out var part);
            if (Speed == 1)
                (firstOutputs[n], secondOutputs[n]) = (At(first, whole - windowFirstFrame), At(second, whole - windowFirstFrame));
            else
                (firstOutputs[n], secondOutputs[n]) = Two(
                    SampleRateConverter.Stretch(first, whole - Reach + 1 - windowFirstFrame, edges.AsSpan(0, _kernel.RowLength)),
                    SampleRateConverter.Stretch(second, whole - Reach + 1 - windowFirstFrame, edges.AsSpan(_kernel.RowLength)),
                    part);
        }
    }

    // No kernel is needed to know how long it will be.
    internal static long OutputLength(double speed, long inputLength)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(inputLength);
        var step = StepOf(speed);
        return (long)((((UInt128)inputLength << PlaceBits) + step - 1) / step);
    }

    private static ulong StepOf(double speed) => (ulong)(speed * (1UL << PlaceBits));

    private static void Check(ReadOnlySpan<double> window, long firstOutput, Span<double> output)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(firstOutput);
        if (window.Overlaps(output))
            throw new ArgumentException("The output overlaps the input; give it a place of its own.", nameof(output));
    }

    // Two rows over one stretch of input, mixed by how far the place lies between them; four partial sums each, added in one fixed order.
    private double One(ReadOnlySpan<double> input, ulong part)
    {
        var row = Row(part, out var along);
        ref var x = ref MemoryMarshal.GetReference(input);
        ref var near = ref MemoryMarshal.GetReference(_kernel.Rows.Slice(row * _kernel.RowLength, 2 * _kernel.RowLength));
        Vector256<double> a = default, b = default;
        // Speeds such as 1/2 and 2 fall on the rows themselves: one is enough.
        if (along == 0)
        {
            for (nuint k = 0; k < (nuint)input.Length; k += Lanes)
                a = Vector256.FusedMultiplyAdd(Vector256.LoadUnsafe(ref x, k), Vector256.LoadUnsafe(ref near, k), a);
            return Total(a);
        }

        ref var far = ref Unsafe.Add(ref near, _kernel.RowLength);
        for (nuint k = 0; k < (nuint)input.Length; k += Lanes)
        {
            var v = Vector256.LoadUnsafe(ref x, k);
            a = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref near, k), a);
            b = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref far, k), b);
        }

        return Mixed(a, b, along);
    }

    // The same for two stretches, which share each load of a coefficient.
    private (double First, double Second) Two(ReadOnlySpan<double> first, ReadOnlySpan<double> second, ulong part)
    {
        var row = Row(part, out var along);
        ref var x = ref MemoryMarshal.GetReference(first);
        ref var y = ref MemoryMarshal.GetReference(second[..first.Length]);
        ref var near = ref MemoryMarshal.GetReference(_kernel.Rows.Slice(row * _kernel.RowLength, 2 * _kernel.RowLength));
        Vector256<double> a = default, b = default, c = default, d = default;
        if (along == 0)
        {
            for (nuint k = 0; k < (nuint)first.Length; k += Lanes)
            {
                var h = Vector256.LoadUnsafe(ref near, k);
                a = Vector256.FusedMultiplyAdd(Vector256.LoadUnsafe(ref x, k), h, a);
                c = Vector256.FusedMultiplyAdd(Vector256.LoadUnsafe(ref y, k), h, c);
            }

            return (Total(a), Total(c));
        }

        ref var far = ref Unsafe.Add(ref near, _kernel.RowLength);
        for (nuint k = 0; k < (nuint)first.Length; k += Lanes)
        {
            Vector256<double> v = Vector256.LoadUnsafe(ref x, k), w = Vector256.LoadUnsafe(ref y, k), h = Vector256.LoadUnsafe(ref near, k);
            a = Vector256.FusedMultiplyAdd(v, h, a);
            c = Vector256.FusedMultiplyAdd(w, h, c);
            h = Vector256.LoadUnsafe(ref far, k);
            b = Vector256.FusedMultiplyAdd(v, h, b);
            d = Vector256.FusedMultiplyAdd(w, h, d);
        }

        return (Mixed(a, b, along), Mixed(c, d, along));
    }

    private static double Mixed(Vector256<double> near, Vector256<double> far, double along)
    {
        double before = Total(near), after = Total(far);
        return before + (along * (after - before));
    }

    private static double Total(Vector256<double> sums) => (sums[0] + sums[2]) + (sums[1] + sums[3]);

    private int Row(ulong part, out double along)
    {
        var bits = PlaceBits - _kernel.RowBits;
        along = (part & ((1UL << bits) - 1)) / (double)(1UL << bits);
        return (int)(part >> bits);
    }

    private static double At(ReadOnlySpan<double> window, long place) => place >= 0 && place < window.Length ? window[(int)place] : 0;

    private long Whole(long output, out ulong part)
    {
        var place = (UInt128)output * _step;
        part = (ulong)(place & ((1UL << PlaceBits) - 1));
        return (long)(place >> PlaceBits);
    }
}
