using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Cut;

/// <summary>A cut in an open library, its take ready to be read.</summary>
internal sealed class OpenCut : IDisposable
{
    private readonly Library _library;
    private readonly SessionTake _take;
    private readonly Take _recording;
    private readonly List<Effect> _removed = [];

    private OpenCut(Library library, SessionTake take, Func<OpenCut, Effect> cut)
    {
        (_library, _take, _recording) = (library, take, take.Description.Open());
        Reader = new(_recording, take.Roles);
        Cut = cut(this);
    }

    public Effect Cut { get; }

    public PairReader Reader { get; }

    public string TakeName => _take.Name;

    public int Rate => _take.Description.SampleRateHertz;

    public long Frames => _take.Description.FrameCount;

    /// <summary>A cut that is there.</summary>
    public static OpenCut Find(CutPlace place, CancellationToken cancellation) => Open(place, open => open.Require(place.Name), cancellation);

    /// <summary>A cut of this name, the whole take if it is new.</summary>
    public static OpenCut ForNew(CutPlace place, CancellationToken cancellation) => Open(
        place,
        open => open.All().FirstOrDefault(e => Same(e.Name, place.Name)) ?? new() { Take = open._take.Catalogued.Id, Name = place.Name, Range = FrameRange.FromFrames(0, open.Frames) },
        cancellation);

    /// <summary>Another cut of the take, by name.</summary>
    public Effect Require(string name) => All().FirstOrDefault(e => Same(e.Name, name))
        ?? throw new JobException(JobErrorKind.WrongUse, $"Take '{_take.Name}' has no cut '{name}'.", "See them with: athwart cut list.");

    /// <summary>Two names for the halves of the cut: its own number and the next free, or 01 and 02.</summary>
    public (string First, string Second) TwoNames()
    {
        var taken = All().Select(e => e.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var digits = Cut.Name.Length - Cut.Name.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9').Length;
        var numbered = digits is > 0 and < 9 && Cut.Name.Length > digits + 1 && Cut.Name[^(digits + 1)] == ' ';
        var stem = numbered ? Cut.Name[..^(digits + 1)] : Cut.Name;
        var number = numbered ? int.Parse(Cut.Name[^digits..], CultureInfo.InvariantCulture) : 0;
        var first = numbered ? Cut.Name : Free(ref number);
        return (first, Free(ref number));

        string Free(ref int n)
        {
            for (n++; ; n++)
            {
                var name = stem + " " + n.ToString(CultureInfo.InvariantCulture).PadLeft(numbered ? digits : 2, '0');
                if (!taken.Contains(name))
                    return name;
            }
        }
    }

    /// <summary>Refuses a cut that is empty or does not lie inside the take.</summary>
    public void RequireInside(long from, long to) => CutChecks.RequireInside(from, to, _take.Name, Frames, Rate);

    /// <summary>Removes a cut when the others are saved.</summary>
    public void Remove(Effect cut) => _removed.Add(cut);

    /// <summary>Saves, all of it or nothing, and says what to know of it.</summary>
    /// <exception cref="JobException">Fades are longer than a cut, or a loop has no room for its cross-fade.</exception>
    public ChangedCuts Save(params Effect[] cuts)
    {
        foreach (var cut in cuts)
            CutChecks.RequireFades(cut);
        _library.Transaction(() =>
        {
            foreach (var cut in _removed)
                _library.RemoveEffect(cut.Id);
            foreach (var cut in cuts)
                _library.SaveEffect(cut);
        });
        return new(_take.Name, [.. cuts.Select(c => ListedCut.From(_take.Name, Rate, c))], [.. cuts.SelectMany(c => ClickCheck.Remarks(c, Reader, FadeWords.Parse(c.FadeInCurve)))]);
    }

    public static long InFrames(TimeSpan time, int rate) => time < TimeSpan.Zero
        ? throw new JobException(JobErrorKind.WrongUse, "A fade cannot last less than nothing.", "Give 0 or more.")
        : (long)Math.Round(time.TotalSeconds * rate, MidpointRounding.AwayFromZero);

    public void Dispose()
    {
        _recording.Dispose();
        _library.Dispose();
    }

    private static OpenCut Open(CutPlace place, Func<OpenCut, Effect> cut, CancellationToken cancellation)
    {
        var library = Library.Open(place.Library, LibraryAccess.Write);
        try
        {
            return new(library, SessionLoader.Require(SessionLoader.Load(library, place.Session, cancellation), place.Take), cut);
        }
        catch
        {
            library.Dispose();
            throw;
        }
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private IReadOnlyList<Effect> All() => _library.Effects(_take.Catalogued.Id);
}
