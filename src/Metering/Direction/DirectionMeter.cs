using Athwart.Signals.Fourier;

namespace Athwart.Metering.Direction;

/// <summary>Follows where the dominant sound is, in one pass and in memory that does not grow with length.</summary>
/// <remarks>
/// Spectra of about 40 ms, half overlapping. In each band the powers of mid and side and the real part of their product are summed
/// over a column, and taken as one source in a diffuse field, whose mid and side are unrelated and of known powers: its share is taken
/// away before the ratio of side to mid is read. Several sources at once give the place between them and a smaller direct share.
/// </remarks>
public sealed class DirectionMeter
{
    /// <summary>At least this share of the mid has to come from one source for a direction to be said. A choice of ours.</summary>
    private const double LeastDirect = 0.25;

    /// <summary>What a figure-8 has of a diffuse field's power.</summary>
    private const double SideOfDiffuse = 1 / 3.0;

    /// <summary>Below this a mean power counts as nothing, −100 dBFS.</summary>
    private const double Nothing = 1e-10;

    private static readonly (double Low, double High)[] Edges = [(200, 800), (800, 3200), (3200, 12_800)];

    private readonly int _rate;
    private readonly double _omniShare;
    private readonly double _midOfDiffuse;
    private readonly long _frameCount;
    private readonly int _columns;
    private readonly FourierTransform _transform;
    private readonly float[] _window;
    private readonly float[] _mid;
    private readonly float[] _side;
    private readonly float[] _real;
    private readonly float[] _imaginary;
    private readonly (int From, int To)[] _bins;
    private readonly double[,] _midPower;
    private readonly double[,] _sidePower;
    private readonly double[,] _product;
    private readonly long[] _spectra;
    private long _seen;
    private int _held;

    /// <summary>Prepares for a stream of a known length.</summary>
    /// <param name="frameCount">Frames that will come, 0 or more.</param>
    /// <param name="sampleRateHertz">Frames per second, 1 or more.</param>
    /// <param name="columns">Columns over time at most, 1 or more; a column is never shorter than one spectrum.</param>
    /// <param name="omniShare">A of the mid, 0 to 1; 0.5, a cardioid, unless it is known.</param>
    public DirectionMeter(long frameCount, int sampleRateHertz, int columns, double omniShare = 0.5)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frameCount);
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHertz, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        if (!(omniShare is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(omniShare), omniShare, "an omni share lies from 0 to 1");
        _midOfDiffuse = (omniShare * omniShare) + ((1 - omniShare) * (1 - omniShare) / 3);
        (_rate, _omniShare, _frameCount) = (sampleRateHertz, omniShare, frameCount);
        var length = 256;
        while (length < sampleRateHertz * 0.04)
            length *= 2;
        _columns = (int)Math.Clamp(Math.Min(columns, frameCount / length), frameCount > 0 ? 1 : 0, int.MaxValue);
        _transform = new(length);
        _window = [.. Enumerable.Range(0, length).Select(n => (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * n / length))))];
        (_mid, _side, _real, _imaginary) = (new float[length], new float[length], new float[length], new float[length]);
        _bins = [.. Edges.Select(e => (Bin(e.Low), Bin(e.High)))];
        (_midPower, _sidePower, _product) = (new double[Edges.Length, _columns], new double[Edges.Length, _columns], new double[Edges.Length, _columns]);
        _spectra = new long[_columns];

        int Bin(double hertz) => Math.Clamp((int)Math.Ceiling(hertz * length / sampleRateHertz), 1, length / 2);
    }

    /// <summary>Adds the next block.</summary>
    /// <param name="mid">Mid, full scale ±1.</param>
    /// <param name="side">Side, as many samples; positive lobe to the left.</param>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        if (mid.Length != side.Length)
            throw new ArgumentException($"mid has {mid.Length} samples and side {side.Length}; they must be equal", nameof(side));
        while (mid.Length > 0)
        {
            var count = Math.Min(mid.Length, _mid.Length - _held);
            BlockIntake.Copy(mid[..count], _mid.AsSpan(_held));
            BlockIntake.Copy(side[..count], _side.AsSpan(_held));
            mid = mid[count..];
            side = side[count..];
            _held += count;
            _seen += count;
            if (_held == _mid.Length)
                Spectrum();
        }
    }

    /// <summary>Closes the trail.</summary>
    public DirectionTrail Complete() => new()
    {
        FrameCount = _frameCount,
        SampleRateHertz = _rate,
        OmniShare = _omniShare,
        Whole = Band(0, Edges.Length),
        Bands = [.. Enumerable.Range(0, Edges.Length).Select(b => Band(b, b + 1))],
    };

    private void Spectrum()
    {
        // One transform for both: mid as the real part, side as the imaginary one.
        Windowing.Apply(_mid, _window, _real);
        Windowing.Apply(_side, _window, _imaginary);
        _transform.Forward(_real, _imaginary);
        if (_columns > 0)
        {
            var column = (int)Math.Min(_columns - 1, (_seen - (_window.Length / 2)) * _columns / Math.Max(1, _frameCount));
            for (var b = 0; b < _bins.Length; b++)
                Sum(b, column);
            _spectra[column]++;
        }

        var half = _window.Length / 2;
        _mid.AsSpan(half).CopyTo(_mid);
        _side.AsSpan(half).CopyTo(_side);
        _held = half;
    }

    private void Sum(int band, int column)
    {
        var (midPower, sidePower, product) = JointSpectrum.Sums(_real, _imaginary, _bins[band].From, _bins[band].To);
        _midPower[band, column] += midPower;
        _sidePower[band, column] += sidePower;
        _product[band, column] += product;
    }

    private DirectionBand Band(int from, int to)
    {
        var band = new DirectionBand(Edges[from].Low, Edges[to - 1].High, new float[_columns], new float[_columns], new float[_columns], new float[_columns]);
        for (var column = 0; column < _columns; column++)
        {
            double mid = 0, side = 0, product = 0, bins = 0;
            for (var b = from; b < to; b++)
            {
                mid += _midPower[b, column];
                side += _sidePower[b, column];
                product += _product[b, column];
                bins += _bins[b].To - _bins[b].From;
            }

            Fill(band, column, mid, side, product, bins * _spectra[column]);
        }

        return band;
    }

    private void Fill(DirectionBand band, int column, double mid, double side, double product, double terms)
    {
        // Hann's mean square is 3/8; one side of the spectrum; the factor of 2 in M and S above.
        var level = _spectra[column] == 0 ? 0 : mid / 4 * 2 / (_spectra[column] * 0.375 * _window.Length * (double)_window.Length);
        band.LevelDecibelsFullScale[column] = (float)(10 * Math.Log10(level));
        var diffuse = Diffuse(mid, side, product);
        var direct = mid - (diffuse * _midOfDiffuse);
        band.DirectShare[column] = level > 0 ? (float)(direct / mid) : float.NaN;
        var known = level > Nothing && direct > LeastDirect * mid;
        var ratio = product / direct;
        // How far chance moves the ratio: what is unrelated in mid and side, over the number of independent terms, half of them, as
        // spectra overlap and the window smears.
        var unrelated = diffuse * (SideOfDiffuse + (ratio * ratio * _midOfDiffuse)) / direct * (1 + (diffuse * _midOfDiffuse / direct));
        var spread = Math.Sqrt(unrelated / Math.Max(1, terms / 2));
        band.AzimuthDegrees[column] = known ? (float)SourceAzimuth.FromRatio(ratio, _omniShare) : float.NaN;
        band.UncertaintyDegrees[column] = known
            ? (float)((SourceAzimuth.FromRatio(ratio + spread, _omniShare) - SourceAzimuth.FromRatio(ratio - spread, _omniShare)) / 2)
            : float.NaN;
    }

    /// <summary>
    /// The diffuse power d that leaves one source: (PM − d·cM)·(PS − d·cS) = C², the smaller root. What mid and side have of it is
    /// cM = A² + B²/3 and cS = 1/3.
    /// </summary>
    private double Diffuse(double mid, double side, double product)
    {
        var (a, b, c) = (_midOfDiffuse * SideOfDiffuse, (mid * SideOfDiffuse) + (side * _midOfDiffuse), (mid * side) - (product * product));
        // Without cancellation: 2c / (b + √(b² − 4ac)).
        return c <= 0 ? 0 : 2 * c / (b + Math.Sqrt(Math.Max(0, (b * b) - (4 * a * c))));
    }
}
