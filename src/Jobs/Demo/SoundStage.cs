namespace Athwart.Jobs.Demo;

/// <summary>The place in front of the rig: sounds are put at azimuths and arrive in the mid and the side.</summary>
internal sealed class SoundStage(int rate, double seconds, ulong seed)
{
    private const int PathStep = 64;

    public int Rate { get; } = rate;

    public int Length { get; } = (int)(seconds * rate);

    public double[] Mid { get; } = new double[(int)(seconds * rate)];

    public double[] Side { get; } = new double[(int)(seconds * rate)];

    /// <summary>What is sent into the surroundings and comes back from everywhere.</summary>
    public double[] Send { get; } = new double[(int)(seconds * rate)];

    public DemoRandom Random { get; } = new(seed);

    public int Frame(double atSeconds) => (int)(atSeconds * Rate);

    /// <summary>An empty mono sound of a length.</summary>
    public double[] Sound(double lengthSeconds) => new double[Frame(lengthSeconds)];

    /// <summary>Puts a sound at one direction; what runs over either end of the take is not heard.</summary>
    public void Place(ReadOnlySpan<double> sound, int first, Direction direction, double send = 0)
    {
        var from = Math.Max(0, -first);
        var to = Math.Min(sound.Length, Length - first);
        for (var i = from; i < to; i++)
        {
            Mid[first + i] += direction.Mid * sound[i];
            Side[first + i] += direction.Side * sound[i];
            Send[first + i] += send * sound[i];
        }
    }

    /// <summary>Puts a sound on a path: direction as a function of the take's seconds, straight between points 64 frames apart.</summary>
    public void PlaceMoving(ReadOnlySpan<double> sound, int first, Func<double, Direction> path, double send = 0)
    {
        var to = Math.Min(sound.Length, Length - first);
        var next = path((double)first / Rate);
        for (var start = 0; start < to; start += PathStep)
        {
            var here = next;
            next = path((double)(first + start + PathStep) / Rate);
            var (midSlope, sideSlope) = ((next.Mid - here.Mid) / PathStep, (next.Side - here.Side) / PathStep);
            for (var i = 0; i < PathStep && start + i < to; i++)
            {
                var x = sound[start + i];
                var frame = first + start + i;
                Mid[frame] += (here.Mid + (i * midSlope)) * x;
                Side[frame] += (here.Side + (i * sideSlope)) * x;
                Send[frame] += send * x;
            }
        }
    }

    /// <summary>Adds a diffuse field: sound from everywhere reaches mid and side unrelated and equally strong.</summary>
    /// <remarks>
    /// Diffuse power of a pattern A + B·cos θ is A² + B²/3: 1/4 + 1/12 = 1/3 for the cardioid and 1/3 for the figure-8,
    /// so side/mid is 0 dB; their product averages to nothing over the sphere, so they do not correlate.
    /// </remarks>
    /// <param name="level">RMS in each of the two.</param>
    /// <param name="slope">Fall with frequency, see <see cref="SlopedNoise"/>.</param>
    /// <param name="swell">Gain as a function of the take's seconds.</param>
    public void AddDiffuse(double level, double slope, Func<double, double>? swell = null)
    {
        var forMid = new SlopedNoise(Rate, slope, Random.Branch());
        var forSide = new SlopedNoise(Rate, slope, Random.Branch());
        var gain = level;
        for (var i = 0; i < Length; i++)
        {
            if (swell != null && i % PathStep == 0)
                gain = level * swell((double)i / Rate);
            Mid[i] += gain * forMid.Next();
            Side[i] += gain * forSide.Next();
        }
    }

    /// <summary>Takes away what is below 8 Hz, as a recorder's input does, and scales both so that the larger peak is <paramref name="peak"/>.</summary>
    public void Scale(double peak)
    {
        LowCut(Mid);
        LowCut(Side);
        var largest = 0.0;
        for (var i = 0; i < Length; i++)
            largest = Math.Max(largest, Math.Max(Math.Abs(Mid[i]), Math.Abs(Side[i])));
        var gain = peak / largest;
        for (var i = 0; i < Length; i++)
        {
            Mid[i] *= gain;
            Side[i] *= gain;
        }
    }

    /// <summary>Adds each microphone's own noise, white with a little more below 200 Hz; the side's is the stronger, as figure-8s are.</summary>
    public void AddSelfNoise(double midDecibels, double sideDecibels)
    {
        AddNoise(Mid, DemoMath.Gain(midDecibels));
        AddNoise(Side, DemoMath.Gain(sideDecibels));
    }

    private void LowCut(double[] channel)
    {
        var keep = DemoMath.Decay(0.02, Rate);
        var low = 0.0;
        for (var i = 0; i < channel.Length; i++)
        {
            low = channel[i] + (keep * (low - channel[i]));
            channel[i] -= low;
        }
    }

    private void AddNoise(double[] channel, double level)
    {
        var random = Random.Branch();
        var keep = DemoMath.Decay(0.0008, Rate);
        var low = 0.0;
        for (var i = 0; i < Length; i++)
        {
            var white = random.White();
            low = white + (keep * (low - white));
            channel[i] += level * (white + (2 * low));
        }
    }
}
