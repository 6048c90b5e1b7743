using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs;
using Athwart.Jobs.Listening;
using Athwart.Recordings;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Athwart.Desk.Sound;

/// <summary>What the browser fetches to draw and to play a take: everything by the id of the take, nothing by path.</summary>
internal static class SoundEndpoints
{
    private const string Bytes = "application/octet-stream";

    /// <summary>Makes the services the endpoints need.</summary>
    public static IServiceCollection AddSound(this IServiceCollection services) => services.AddSingleton<SoundRoom>().AddSingleton<TreatedRoom>();

    /// <summary>Adds the endpoints; they stand behind the desk's door like every page.</summary>
    public static void MapSound(this IEndpointRouteBuilder routes)
    {
        var take = routes.MapGroup("/sound/{take:length(12)}");
        take.AddEndpointFilter(TurnErrorsIntoAnswers);
        take.MapGet("", About);
        take.MapGet("pair", Pair);
        take.MapGet("powers", Powers);
        take.MapTreated();
        take.MapGet("peaks/{level:int}/{tile:long}", Peaks);
        take.MapGet("spectrum/{pair}/{level:int}/{tile:long}", Spectrum);
    }

    private static JsonHttpResult<TakeAnswer> About(string take, SoundRoom room, CancellationToken cancellation)
    {
        using var lease = room.Rent(take, cancellation);
        var findings = room.Library.Read(l => l.Findings(lease.Take.Catalogued.Id), []);
        // Begins to make the peaks, which the page will ask for next.
        lease.Peaks();
        return TypedResults.Json(TakeAnswer.Of(lease.Take, findings), SoundJson.Default.TakeAnswer);
    }

    private static FileContentHttpResult Pair(string take, long from, int frames, SoundRoom room, CancellationToken cancellation)
    {
        using var lease = room.Rent(take, cancellation);
        return TypedResults.Bytes(PairSlices.Read(lease.Take, from, frames, cancellation), Bytes);
    }

    private static JsonHttpResult<WeightedPowers> Powers(string take, long from, long to, SoundRoom room, CancellationToken cancellation)
    {
        using var lease = room.Rent(take, cancellation);
        return TypedResults.Json(WeightedPowers.Measure(lease.Take, from, to, cancellation), SoundJson.Default.WeightedPowers);
    }

    private static IResult Peaks(string take, int level, long tile, string? v, HttpContext context, SoundRoom room)
    {
        using var lease = room.Rent(take, context.RequestAborted);
        // Fine levels come from the take itself and need not wait.
        var state = level < PeakLayout.StoredLevel ? null : lease.Peaks();
        if (NotYet(state) is { } wait)
            return wait;
        KeepInBrowser(context, v, lease.Take.Key);
        return TypedResults.Bytes(PeakTiles.Read(lease.Take, state?.Pyramid, level, tile, context.RequestAborted), Bytes);
    }

    private static async Task<IResult> Spectrum(string take, string pair, int level, long tile, string? v, HttpContext context, SoundRoom room)
    {
        using var lease = room.Rent(take, context.RequestAborted);
        var state = lease.Peaks();
        if (NotYet(state) is { } wait)
            return wait;
        if (Named(pair) is not { } named)
            return Trouble(StatusCodes.Status400BadRequest, "A spectrum is of 'mid-side' or of 'left-right'.");
        await room.Pictures.WaitAsync(context.RequestAborted);
        try
        {
            KeepInBrowser(context, v, lease.Take.Key);
            return TypedResults.Bytes(SpectrogramTiles.Read(lease.Take, state.Pyramid!, named, level, tile, context.RequestAborted), Bytes);
        }
        finally
        {
            room.Pictures.Release();
        }
    }

    private static SpectrogramPair? Named(string pair) => pair switch
    {
        "mid-side" => SpectrogramPair.MidSide,
        "left-right" => SpectrogramPair.LeftRight,
        _ => null,
    };

    // The browser asks again in a moment and shows the fraction meanwhile.
    private static IResult? NotYet(PeakState? state) => state switch
    {
        null or { Pyramid: not null } => null,
        // Stopped since the take is opened anew, such as after its roles were changed.
        { Error: OperationCanceledException } => TypedResults.Json(new MakingAnswer(0), SoundJson.Default.MakingAnswer, statusCode: StatusCodes.Status202Accepted),
        { Error: { } error } => Trouble(StatusCodes.Status500InternalServerError, "The picture of the take could not be made: " + error.Message),
        _ => TypedResults.Json(new MakingAnswer(state.Fraction), SoundJson.Default.MakingAnswer, statusCode: StatusCodes.Status202Accepted),
    };

    // What is asked for under the key of the content never changes.
    private static void KeepInBrowser(HttpContext context, string? version, string key) => context.Response.Headers.CacheControl =
        string.Equals(version, key, StringComparison.Ordinal) ? "private, max-age=31536000, immutable" : "no-store";

    private static async ValueTask<object?> TurnErrorsIntoAnswers(EndpointFilterInvocationContext invocation, EndpointFilterDelegate next)
    {
        var http = invocation.HttpContext;
        http.Response.Headers.CacheControl = "no-store";
        try
        {
            return await next(invocation);
        }
        catch (LibraryException e) when (e.Kind == LibraryErrorKind.NotFound)
        {
            return Trouble(StatusCodes.Status404NotFound, e.Message);
        }
        catch (Exception e) when (e is LibraryException or JobException or RecordingException or IOException)
        {
            return Trouble(StatusCodes.Status409Conflict, e.Message);
        }
        catch (ArgumentOutOfRangeException e)
        {
            return Trouble(StatusCodes.Status400BadRequest, string.Create(CultureInfo.InvariantCulture, $"'{e.ParamName}' is out of range."));
        }
        catch (OperationCanceledException) when (http.RequestAborted.IsCancellationRequested)
        {
            return Results.Empty;
        }
    }

    private static JsonHttpResult<TroubleAnswer> Trouble(int status, string message) =>
        TypedResults.Json(new TroubleAnswer(message), SoundJson.Default.TroubleAnswer, statusCode: status);
}
